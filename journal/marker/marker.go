// Package marker knows the folders that guidecoat published: they carry a file
// that says so and for whom. Notes are never read from such a folder, and no other
// folder is ever written over.
package marker

import (
	"io/fs"
	"path"
	"strings"
)

// Name is the marker's file name.
const Name = ".guidecoat"

const prefix = "guidecoat site for "

// Text is what the marker of a site for that audience holds.
func Text(audience string) string { return prefix + audience + "\n" }

// Read returns for whom the folder was published, and whether guidecoat did it.
func Read(fsys fs.FS, dir string) (audience string, ok bool) {
	data, err := fs.ReadFile(fsys, path.Join(dir, Name))
	if err != nil {
		return "", false
	}
	return strings.CutPrefix(strings.TrimSpace(string(data)), prefix)
}
