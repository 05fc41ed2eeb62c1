package generator_test

import (
	"trundle/generator/mirror"
	"trundle/generator/read"
)

// A snapshot is files held in memory. The two packages do not know each other and meet by a method's name alone: if
// one of them is renamed, a preview would copy every file at every save, and nothing but its speed would show it.
var _ read.Held = (*mirror.Snapshot)(nil)
