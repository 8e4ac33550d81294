package journal

import (
	"io"
	"io/fs"
	"path"
	"time"

	"guidecoat/journal/picture"

	"golang.org/x/text/unicode/norm"
)

// Find returns the path of the build's file that is meant by one, "" where there is
// none. Systems spell letters with marks in two ways, of which a note may hold the
// one and the disk the other; to people they are the same name.
func (b *Build) Find(p string) string {
	if b.Files[p] {
		return p
	}
	return b.composed[norm.NFC.String(p)]
}

// found takes over what was found on disk.
func (b *Build) found(fsys fs.FS, f *folder) {
	b.fsys, b.Files, b.Outside, b.composed = fsys, f.files, f.outside, spellings(f.files)
}

// spellings are the files whose names have letters with marks, by their composed form.
func spellings(files map[string]bool) map[string]string {
	composed := map[string]string{}
	for p := range files {
		if norm.NFC.QuickSpanString(p) == len(p) && norm.NFD.QuickSpanString(p) == len(p) {
			continue
		}
		c := norm.NFC.String(p)
		if other, ok := composed[c]; !ok || p < other {
			composed[c] = p
		}
	}
	return composed
}

// leadsOut tells whether a link to a file leads out of the folder that the user
// named. Such a file is never published.
func leadsOut(fsys fs.FS, p string) bool {
	to, err := fs.ReadLink(fsys, p)
	return err == nil && (path.IsAbs(to) || !fs.ValidPath(path.Join(path.Dir(p), to)))
}

// sighting is what was seen of a file, as long as its size and time are the same.
type sighting struct {
	size   int64
	time   time.Time
	header *picture.Header
	err    error
}

// Picture reads the header of one of the build's files, as picture.Look does.
func (b *Build) Picture(p string) (*picture.Header, error) {
	info, err := fs.Stat(b.fsys, p)
	if err != nil {
		return nil, err
	}
	if s, ok := b.reader.saw(p); ok && s.size == info.Size() && s.time.Equal(info.ModTime()) {
		return s.header, s.err
	}
	s := sighting{size: info.Size(), time: info.ModTime()}
	f, err := b.fsys.Open(p)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r, ok := f.(io.ReaderAt)
	if !ok {
		return nil, &fs.PathError{Op: "read", Path: p, Err: fs.ErrInvalid}
	}
	s.header, s.err = picture.Look(p, r, info.Size())
	b.reader.remember(p, s)
	return s.header, s.err
}
