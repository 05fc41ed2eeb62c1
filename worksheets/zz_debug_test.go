package worksheets_test

import (
	"fmt"
	"os"
	"testing"

	"trundle/worksheets"
)

func TestZZ(t *testing.T) {
	proved, _ := built(t, demo())
	os.Setenv("DBG", "1")
	for _, l := range proved.Lessons {
		fmt.Println("=====", l.Slug)
		worksheets.Make(worksheets.Papers[0], worksheets.About{Pack: "P", Version: "1", Language: "en", Words: func(n string, a ...any) string { return n }}, l, nil, false)
	}
}
