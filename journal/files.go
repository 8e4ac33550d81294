package journal

import (
	"cmp"
	"errors"
	"io"
	"io/fs"
	"path"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/picture"

	"golang.org/x/text/unicode/norm"
)

// Find returns the file that is meant by a path, "" where there is none. A note and the disk may spell é in two ways.
func (b *Build) Find(p string) string {
	if b.Files[p] {
		return p
	}
	return b.composed[norm.NFC.String(p)]
}

// errNoFile is said of what reading would wait for for ever, or never come to an end of.
var errNoFile = errors.New("it is a pipe, a socket or a device, not a file")

func isNoFile(mode fs.FileMode) bool { return mode&(fs.ModeNamedPipe|fs.ModeSocket|fs.ModeDevice) != 0 }

// errLeadsOut is said of a link to what is none of the user's notes: its text would get onto pages.
var errLeadsOut = errors.New("it is a link that leads out of this folder")

// wayOut is help for an error of a file that has help of its own.
func wayOut(err error) string {
	return pick.Either(errors.Is(err, errLeadsOut), "Put the file itself here, or take the link away.", "")
}

// readText reads a file that may be a note: of too large a one no more than shows that it is.
func readText(fsys fs.FS, p string) ([]byte, error) {
	info, err := fs.Lstat(fsys, p)
	if err == nil && info.Mode()&fs.ModeSymlink != 0 {
		if leadsOut(fsys, p) {
			return nil, errLeadsOut
		}
		info, err = fs.Stat(fsys, p)
	}
	if err != nil {
		return nil, err
	}
	// Before it is opened, which of a pipe does not end.
	if isNoFile(info.Mode()) {
		return nil, errNoFile
	}
	if k, ok := fsys.(interface{ Kept(string) ([]byte, error) }); ok { // the same bytes each time, while it is as it was
		return k.Kept(p)
	}
	f, err := fsys.Open(p)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	const most = note.MaxSize + 4                  // by one more than a largest note with a byte order mark
	data := make([]byte, min(info.Size()+1, most)) // kept, so no longer than shows that this is all
	n, err := io.ReadFull(f, data)
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return data[:n], nil
	}
	if err != nil {
		return nil, err
	}
	grown, err := io.ReadAll(io.LimitReader(f, most-int64(n))) // since it was looked at
	return append(data, grown...), err
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

// leadsOut tells whether a link leads out of the folder that the user named, be it by other links.
func leadsOut(fsys fs.FS, p string) bool {
	const most = 40 // links, as many as Linux follows
	at, rest := ".", strings.Split(p, "/")
	for links := 0; len(rest) > 0; {
		next := path.Join(at, rest[0])
		rest = rest[1:]
		if !fs.ValidPath(next) {
			return true
		}
		to, err := fs.ReadLink(fsys, next)
		if err != nil { // it is none
			at = next
			continue
		}
		if links++; links > most || path.IsAbs(to) {
			return true
		}
		rest = append(strings.Split(to, "/"), rest...)
	}
	return false
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

// comparePaths orders paths element by element, without their .md.
func comparePaths(a, b string) int {
	a, b = strings.TrimSuffix(a, ".md"), strings.TrimSuffix(b, ".md")
	for {
		x, restA, deeperA := strings.Cut(a, "/")
		y, restB, deeperB := strings.Cut(b, "/")
		switch {
		case x != y:
			return cmp.Compare(x, y)
		case !deeperA || !deeperB:
			return cmp.Compare(len(a), len(b))
		}
		a, b = restA, restB
	}
}
