package worksheets_test

import (
	"strings"
	"testing"
)

func BenchmarkRunSheets(b *testing.B) {
	makes(b, func(name string) bool { return strings.Contains(name, "-mentor-") && !strings.Contains(name, "season") })
}

func BenchmarkOfSeason(b *testing.B) {
	makes(b, func(name string) bool { return strings.Contains(name, "/season-") })
}
