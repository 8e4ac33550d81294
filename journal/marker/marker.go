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

// Text returns the first line of the file in a folder written for that audience.
// Below it stands the list of the files, see [List].
func Text(audience string) string { return prefix + audience + "\n" }

// List returns the lines below the first: the paths of all files that were put
// into the folder. What else is found there is somebody's, and not ours to remove.
func List(paths []string) string {
	if len(paths) == 0 {
		return ""
	}
	return strings.Join(paths, "\n") + "\n"
}

// Files returns the paths of that list; nil where a marker has none.
func Files(fsys fs.FS, dir string) (map[string]bool, error) {
	text, err := fs.ReadFile(fsys, path.Join(dir, Marker))
	if err != nil {
		return nil, err
	}
	var files map[string]bool
	lines := strings.Split(string(text), "\n")
	for _, line := range lines[1 : len(lines)-1] {
		if files == nil {
			files = map[string]bool{}
		}
		files[strings.TrimSuffix(line, "\r")] = true
	}
	return files, nil
}

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
