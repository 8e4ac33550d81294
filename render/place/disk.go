package place

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"sync"

	"guidecoat/journal/marker"
	"guidecoat/journal/pick"

	"golang.org/x/text/unicode/norm"
)

// A disk is a folder, with all that is done to one. Tests put in its place one that fails at every step.
type disk interface {
	FS() fs.FS
	Lstat(name string) (fs.FileInfo, error)
	OpenFile(name string, flag int, perm fs.FileMode) (*os.File, error)
	Mkdir(name string, perm fs.FileMode) error
	MkdirAll(name string, perm fs.FileMode) error
	Chmod(name string, perm fs.FileMode) error
	Link(from, to string) error
	Rename(from, to string) error
	Remove(name string) error
	Close() error

	// create opens a new file to be written.
	create(name string) (file, error)
	// within opens a folder in this one.
	within(name string) (disk, error)
	// settle waits until what was written to the file system is on the disk.
	settle() error
	// exchange makes two folders change places in one step.
	exchange(a, b string) error
}

// A file is one that is being written.
type file interface {
	io.WriteCloser
	Sync() error
}

// A folder is a disk that is really there.
type folder struct{ *os.Root }

// create never opens a file that is there: it might be a link to a file of the old site.
func (f folder) create(name string) (file, error) {
	return f.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
}

func (f folder) within(name string) (disk, error) {
	root, err := f.OpenRoot(name)
	return folder{root}, err
}

func (f folder) settle() error { return settle(f.Root) }

func (f folder) exchange(a, b string) error { return exchange(f.Root, a, b) }

var errNoFile = errors.New("it is no file")

// openFile opens a file that is one: a link may lead anywhere, a pipe may keep us waiting.
func openFile(d disk, name string) (*os.File, error) {
	info, err := d.Lstat(name)
	if err == nil && !info.Mode().IsRegular() {
		err = errNoFile
	}
	if err != nil {
		return nil, err
	}
	f, err := d.OpenFile(name, os.O_RDONLY|noWait, 0)
	if err != nil {
		return nil, err
	}
	if now, err := f.Stat(); err != nil || !os.SameFile(info, now) {
		f.Close()
		return nil, errNoFile
	}
	return f, nil
}

// readMarker reads a marker. Nothing comes of what is none.
func readMarker(d disk, name string) ([]byte, error) {
	f, err := openFile(d, name)
	if errors.Is(err, errNoFile) || errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, marker.Largest))
}

var buffers = sync.Pool{New: func() any { return new([64 << 10]byte) }}

// digest is that of a file as it is on the disk.
func digest(d disk, name string) (sum marker.Digest, err error) {
	f, err := openFile(d, name)
	if err != nil {
		return sum, err
	}
	defer f.Close()
	h, buffer := sha256.New(), buffers.Get().(*[64 << 10]byte)
	defer buffers.Put(buffer)
	_, err = io.CopyBuffer(h, struct{ io.Reader }{f}, buffer[:]) // or the file would bring a buffer of its own
	h.Sum(sum[:0])
	return sum, err
}

// remedy says what to do about an error in writing.
func remedy(err error) string {
	switch is := func(sort []error) bool { return isAny(err, sort) }; {
	case is(full):
		return "make room on the disk and publish again"
	case errors.Is(err, fs.ErrPermission) || is(readOnly):
		return "make the folder it stands in writable, or publish elsewhere"
	case is(tooLong):
		return "publish to a folder with a shorter name, or nearer to the top of the disk"
	case is(unmovable):
		return "publish to another folder: this one cannot be moved, as those that came with the image of a container"
	case is(busy):
		return "if a disk is mounted there, publish to a folder on it"
	}
	return "publish again, or to a folder on another disk"
}

func isAny(err error, sort []error) bool {
	return slices.ContainsFunc(sort, func(e error) bool { return errors.Is(err, e) })
}

// paths is what a site holds so far: files and folders, each with case folded away.
type paths map[string]node

type node struct {
	path   string // as first spelled
	folder bool
}

// add takes up a path, or says why the site cannot hold it: what one system or host would confuse is refused.
func (p paths) add(name string) error {
	if err := marker.Refuse(name); err != nil {
		return err
	}
	for dir := path.Dir(name); dir != "."; dir = path.Dir(dir) {
		folded := fold(dir)
		if known, ok := p[folded]; !ok {
			p[folded] = node{dir, true}
		} else if known != (node{dir, true}) {
			return clash(name, known)
		} else {
			break // and so are those above it
		}
	}
	folded := fold(name)
	if known, ok := p[folded]; ok {
		return clash(name, known)
	}
	p[folded] = node{name, false}
	return nil
}

func clash(name string, known node) error {
	what := pick.Either(known.folder, "folder", "file")
	if known.path == name {
		return fmt.Errorf("the path %q is in the site twice, the first time as a %s; rename one of the two", name, what)
	}
	return fmt.Errorf("the path %q cannot be in the site beside the %s %q: not every system tells them apart; rename one of the two", name, what, known.path)
}

// fold makes two paths equal that differ in case, or in how accents are written.
func fold(name string) string { return norm.NFC.String(strings.ToLower(strings.ToUpper(name))) }
