package figures_test

import (
	"testing"

	"trundle/testdata/browser"
)

func TestMain(m *testing.M) { browser.Main(m) }
