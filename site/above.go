package site

// The script that keeps what lies above an edition's folder in a bundle, for use without a network.

// Above makes that script for files of which an edition's own worker sees nothing.
func (s *Site) Above(files Files) ([]byte, error) {
	worker, err := scriptFiles.ReadFile("scripts/above.js")
	if err != nil {
		return nil, err
	}
	version, err := versionOf(files, worker)
	if err != nil {
		return nil, err
	}
	return keeper(worker, files, version)
}
