// Package marker knows the folders that guidecoat published. Such a folder holds
// a small file that says so, and for whom: by it the reader of notes passes the
// folder over, and publishing knows that it may replace it.
package marker

import (
	"io"
	"io/fs"
	"path"
	"strings"
)

// Marker is the name of the file. It is hidden, so that listings and most hosts
// leave it alone.
const Marker = ".guidecoat"

const (
	prefix = "guidecoat site for "
	// longest is how much of a file is read to see whether it is a marker.
	longest = 256
)

// Text returns what the file holds in a folder written for that audience.
func Text(audience string) string { return prefix + audience + "\n" }

// Read returns the audience that the folder dir of fsys was published for; ok is
// false where guidecoat did not publish it. A marker that cannot be read is none:
// a folder is better read, or refused, than taken for ours.
func Read(fsys fs.FS, dir string) (audience string, ok bool) {
	name := path.Join(dir, Marker)
	info, err := fs.Stat(fsys, name)
	if err != nil || !info.Mode().IsRegular() { // opening a pipe would wait for ever
		return "", false
	}
	file, err := fsys.Open(name)
	if err != nil {
		return "", false
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, longest))
	if err != nil {
		return "", false
	}
	line, _, ended := strings.Cut(string(text), "\n")
	audience, ok = strings.CutPrefix(strings.TrimSuffix(line, "\r"), prefix)
	if !ended || !ok || audience == "" {
		return "", false
	}
	return audience, true
}
