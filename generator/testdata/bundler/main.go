// Command bundler makes the bundles of a pack, as trundle does, with as little around it as can be: .ci/processors
// compiles it for several processors, and a server or a watcher of folders, which the command has too, would only make
// that longer.
package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"trundle/generator"
)

func main() {
	if err := bundled(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// bundled writes the bundles of a pack into a folder that is there.
func bundled(pack, out string) error {
	proved, err := generator.Prove(context.Background(), os.DirFS(pack))
	if err != nil {
		return err
	}
	if proved.HasErrors() {
		return fmt.Errorf("%s has errors", pack)
	}
	zips, err := generator.Bundles(context.Background(), proved, time.Time{}, func(int, int) {})
	for name, data := range zips {
		if err == nil {
			err = os.WriteFile(filepath.Join(out, name), data, 0o600)
		}
	}
	return err
}
