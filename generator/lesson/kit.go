package lesson

// How a lesson names the facts of its kit: kit.wheel.

import "strings"

const kitPrefix = "kit."

// KitName is what a lesson calls a fact of the kit, "kit.wheel".
func KitName(fact string) string { return kitPrefix + fact }

// KitFact gives the fact that a name stands for, "wheel"; ok is false for a name of the lesson's own.
func KitFact(name string) (fact string, ok bool) { return strings.CutPrefix(name, kitPrefix) }

// NamesKit tells whether a text could name a fact of the kit.
func NamesKit(text []byte) bool { return strings.Contains(string(text), kitPrefix) }
