//go:build unix

package keeping_test

// A browser and its processes as a group of their own, so that all of them can be killed together.

import (
	"os/exec"
	"syscall"
)

// apart starts a program as the head of a group.
func apart(cmd *exec.Cmd) { cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} }

// killAll ends a group with all that is in it.
func killAll(group int) error { return syscall.Kill(-group, syscall.SIGKILL) }
