package place

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"regexp"
	"strings"

	"guidecoat/journal/marker"
)

// A fresh is the new site while it is written, in a folder of its own.
type fresh struct {
	parent disk
	name   string // of the folder
	perm   fs.FileMode
	site   marker.Site // what it is to hold

	root disk            // nil until there is something to write
	mark file            // the marker, in which each file is noted before it is made
	dirs map[string]bool // the folders made in it
}

// begin makes the folder. Its marker comes first and is on the disk, or the folder would stay for ever.
func (f *fresh) begin() error {
	if f.root != nil {
		return nil
	}
	if err := f.parent.Mkdir(f.name, f.perm|0o700); err != nil {
		return err
	}
	root, err := f.parent.within(f.name)
	if err != nil {
		return err
	}
	f.root, f.dirs = root, map[string]bool{".": true}
	mark, err := root.create(marker.Marker)
	if err != nil {
		return err
	}
	f.mark = mark
	_, err = mark.Write([]byte(f.site.Head()))
	return errors.Join(err, mark.Sync())
}

// note prepares for a file: its folder is made, and the marker says that it is ours.
func (f *fresh) note(name string) error {
	if err := f.begin(); err != nil {
		return err
	}
	if _, err := f.mark.Write([]byte(marker.Line(name, f.site.Files[name]))); err != nil {
		return err
	}
	return f.folder(path.Dir(name))
}

func (f *fresh) finish() error {
	if err := f.begin(); err != nil { // a site without files
		return err
	}
	mark := f.mark
	f.mark = nil
	return errors.Join(mark.Close(), f.create(marker.Marker, []byte(f.site.Text())))
}

func (f *fresh) write(name string, data []byte) error {
	if err := f.note(name); err != nil {
		return err
	}
	return f.create(name, data)
}

// create writes under another name first: a file left in part would be taken for somebody's.
func (f *fresh) create(name string, data []byte) error {
	out, err := f.root.create(marker.Part)
	if err != nil {
		return err
	}
	_, err = out.Write(data)
	if name == marker.Marker {
		err = errors.Join(err, out.Sync())
	}
	if err := errors.Join(err, out.Close()); err != nil {
		return err
	}
	return f.root.Rename(marker.Part, name)
}

func (f *fresh) folder(dir string) error {
	if f.dirs[dir] {
		return nil
	}
	f.dirs[dir] = true
	return f.root.MkdirAll(dir, 0o755)
}

// keep takes over a file of the old site: as a second name for it, or as a copy.
func (f *fresh) keep(old *old, name string) error {
	if err := f.note(name); err != nil {
		return err
	}
	to := path.Join(f.name, name)
	if f.parent.Link(path.Join(old.name, name), to) == nil {
		return nil
	}
	if _, err := f.parent.Lstat(to); err == nil { // linked all the same, see replace
		return nil
	}
	in, err := openFile(old.root, name)
	if err != nil {
		return err
	}
	defer in.Close()
	data, err := io.ReadAll(in)
	if err != nil {
		return err
	}
	return f.create(name, data)
}

// replace makes the new folder the one that old was, which then has the name left.
func (f *fresh) replace(old *old) (left string, err error) {
	ours, err := f.parent.Lstat(f.name)
	if err != nil {
		return "", failed(old.name, err)
	}
	left, err = f.change(old, ours)
	// A network drive may say that a step has failed when it was done.
	if err == nil || f.stands(ours, old.name) {
		return left, nil
	}
	return "", err
}

func (f *fresh) change(old *old, ours fs.FileInfo) (left string, err error) {
	if old.root == nil && !old.empty {
		return f.name, failed(old.name, f.parent.Rename(f.name, old.name))
	}
	if err := f.parent.Chmod(f.name, old.perm); err != nil {
		return f.name, failed(old.name, err)
	}
	if old.empty {
		if err := f.parent.Remove(old.name); err != nil { // as it does if it is empty no more
			return f.name, failed(old.name, err)
		}
		err := f.parent.Rename(f.name, old.name)
		if err != nil && !f.stands(ours, old.name) {
			f.parent.Mkdir(old.name, old.perm)
		}
		return f.name, failed(old.name, err)
	}
	if err := f.parent.settle(); err != nil {
		return f.name, failed(old.name, err)
	}
	err = f.parent.exchange(f.name, old.name)
	if isAny(err, notExchanged) {
		return f.replaceInSteps(old.name, ours)
	}
	return f.name, failed(old.name, err)
}

// replaceInSteps is for systems without exchange. Between its steps there is no site; tidy repairs that.
func (f *fresh) replaceInSteps(name string, ours fs.FileInfo) (left string, err error) {
	aside := hidden(name, oldInfix+suffix())
	err = f.parent.Rename(name, aside)
	if err == nil {
		err = f.parent.Rename(f.name, name)
	}
	if err == nil || f.stands(ours, name) {
		return aside, nil
	}
	if back := f.parent.Rename(aside, name); back == nil || errors.Is(back, fs.ErrNotExist) {
		return "", failed(name, err)
	}
	return "", fmt.Errorf("the site could not be put in place; if the old one is not in %q, publish again, or rename %q to that: %w", name, aside, err)
}

// stands tells whether the folder of that name is the new one.
func (f *fresh) stands(ours fs.FileInfo, name string) bool {
	now, err := f.parent.Lstat(name)
	return err == nil && ours != nil && os.SameFile(ours, now)
}

func (f *fresh) close() {
	if f.mark != nil {
		f.mark.Close()
		f.mark = nil
	}
	if f.root != nil {
		f.root.Close()
	}
}

// What stands in the names of the folders beside the site.
const (
	newInfix = ".new-"
	oldInfix = ".old-"
)

// hidden returns the name of something that stands beside the folder, where notes are not read.
func hidden(name, what string) string { return "." + name + what }

// suffix is so long that nobody's folder ends in one by chance.
func suffix() string { return strings.ToLower(rand.Text()) }

var isSuffix = regexp.MustCompile(`^[a-z2-7]{26}$`).MatchString
