package class_test

// The mentors' page of the whole class, in a real browser.

import (
	"testing"

	"trundle/testdata/browser"
)

func TestMain(m *testing.M) { browser.Main(m) }
