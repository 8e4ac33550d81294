// Package marker knows the folders that guidecoat published, by a file that lists every other with its digest.
// Without its whole list a marker proves nothing; while a folder is being written, its marker has no end.
package marker

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"unicode"
)

const (
	// Marker is the name of the file. It is hidden, so that listings and hosts leave it alone.
	Marker = ".guidecoat"
	// Part is a file of such a folder until all of it is written.
	Part = Marker + "-part"
	// Largest is how long a marker may be: room for half a million files.
	Largest = 64 << 20
)

const (
	prefix = "guidecoat site for "
	from   = "written from "
	whole  = "whole "
)

// A Digest stands for the content of a file.
type Digest [sha256.Size]byte

// A Site is what a marker tells of the folder it is in.
type Site struct {
	Audience string
	Build    string            // stands for the build or garage, see [Of]
	Files    map[string]Digest // by path; neither the marker nor any note
}

// Of stands for a name, which is not written down: what of it is seen is for the pages to say.
func Of(name string) string {
	sum := sha256.Sum256([]byte(name))
	return hex.EncodeToString(sum[:8])
}

// Head returns the lines that a marker begins with.
func (s Site) Head() string { return prefix + s.Audience + "\n" + from + s.Build + "\n" }

// Line returns the line of a file, as the tool sha256sum writes and checks it.
func Line(name string, sum Digest) string { return fmt.Sprintf("%x  %s\n", sum, name) }

// Text returns the whole marker.
func (s Site) Text() string {
	var b strings.Builder
	b.WriteString(s.Head())
	for _, name := range slices.Sorted(maps.Keys(s.Files)) {
		b.WriteString(Line(name, s.Files[name]))
	}
	return b.String() + end([]byte(b.String()))
}

// end is the last line, by which a marker that was cut short or changed is known.
func end(above []byte) string { return fmt.Sprintf("%s%x\n", whole, sha256.Sum256(above)) }

// Parse reads a marker. Ok says that it is whole. A checkout may have changed line endings.
func Parse(text []byte) (s Site, ok bool) {
	text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	at := 0
	line := func() (string, bool) {
		l, _, ended := bytes.Cut(text[at:], []byte("\n"))
		if ended {
			at += len(l) + 1
		}
		return string(l), ended
	}
	first, _ := line()
	second, ended := line()
	audience, isFirst := strings.CutPrefix(first, prefix)
	build, isSecond := strings.CutPrefix(second, from)
	if !ended || !isFirst || !isSecond || audience == "" || build == "" {
		return Site{}, false
	}
	s = Site{Audience: audience, Build: build, Files: map[string]Digest{}}
	for {
		above := text[:at]
		l, ended := line()
		if !ended || strings.HasPrefix(l, whole) {
			return s, string(text[len(above):]) == end(above)
		}
		digits, name, _ := strings.Cut(l, "  ")
		sum, err := hex.DecodeString(digits)
		if _, twice := s.Files[name]; err != nil || len(sum) != sha256.Size || twice || Refuse(name) != nil {
			return s, false
		}
		s.Files[name] = Digest(sum)
	}
}

// Refuse says why a file of that path cannot be in a site, nil where it can.
func Refuse(name string) error {
	switch {
	case !fs.ValidPath(name) || name == ".":
		return fmt.Errorf("%q is not a path within the site; give its folders and name, joined by single slashes", name)
	case strings.Contains(name, `\`) || strings.ContainsFunc(name, unicode.IsControl):
		return fmt.Errorf("the path %q holds a backslash or a control character, which not every system can write; rename the file", name)
	case IsNote(name):
		return fmt.Errorf("the path %q is named as notes are, which are never removed, so that no site could be replaced; rename the file", name)
	case strings.HasPrefix(strings.ToLower(name), Marker):
		return fmt.Errorf("the path %q is where guidecoat marks the site as its own; rename the file", name)
	}
	return nil
}

// IsNote tells whether a name ends as those of notes do, or as an editor may have changed it.
func IsNote(name string) bool {
	name = strings.ToLower(name)
	return slices.ContainsFunc([]string{".md", ".markdown", ".mdown", ".mkd", ".md.txt"}, func(ending string) bool {
		return strings.HasSuffix(name, ending)
	})
}

// Read returns what the marker in dir tells; ok is false without a whole one. A link is none.
func Read(fsys fs.FS, dir string) (s Site, ok bool) {
	name := path.Join(dir, Marker)
	info, err := fs.Lstat(fsys, name)
	if err != nil || !info.Mode().IsRegular() || info.Size() > Largest { // opening a pipe would wait for ever
		return Site{}, false
	}
	file, err := fsys.Open(name)
	if err != nil {
		return Site{}, false
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, Largest))
	if err != nil {
		return Site{}, false
	}
	return Parse(text)
}

// Notes calls found for every note in a published folder, and for folders that cannot be looked into.
func Notes(fsys fs.FS, dir string, found func(p string, err error)) {
	_ = fs.WalkDir(fsys, dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil || !e.IsDir() && IsNote(p) {
			found(p, err)
		}
		return nil
	})
}
