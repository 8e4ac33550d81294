package place

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"strings"

	"guidecoat/journal/marker"
)

// A fresh is the new site while it is written, in a folder of its own.
type fresh struct {
	parent   *os.Root
	name     string // of the folder
	audience string
	perm     fs.FileMode

	root *os.Root        // nil until there is something to write
	dirs map[string]bool // the folders made in it
}

// begin makes the folder, if that was not done before. Its marker comes first, so
// that whatever is left of the folder is known as ours; and it is on the disk
// before anything else, since a folder without it would be refused for ever.
func (f *fresh) begin() error {
	if f.root != nil {
		return nil
	}
	if err := f.parent.Mkdir(f.name, f.perm|0o700); err != nil {
		return err
	}
	root, err := f.parent.OpenRoot(f.name)
	if err != nil {
		return err
	}
	f.root, f.dirs = root, map[string]bool{".": true}
	return f.create(marker.Marker, []byte(marker.Text(f.audience)), (*os.File).Sync)
}

func (f *fresh) write(name string, data []byte) error {
	if err := f.begin(); err != nil {
		return err
	}
	return f.create(name, data, nil)
}

// create writes a file that is not there yet. It never opens one that is: it might
// be a link to a file of the old site, which writing would change.
func (f *fresh) create(name string, data []byte, finish func(*os.File) error) error {
	if err := f.folder(path.Dir(name)); err != nil {
		return err
	}
	out, err := f.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = out.Write(data)
	if err == nil && finish != nil {
		err = finish(out)
	}
	return errors.Join(err, out.Close())
}

func (f *fresh) folder(dir string) error {
	if f.dirs[dir] {
		return nil
	}
	f.dirs[dir] = true
	return f.root.MkdirAll(dir, 0o755)
}

// keep takes over a file of the old site: as a second name for it, or as a copy
// where the file system has no such thing.
func (f *fresh) keep(old *old, name string) error {
	if err := f.begin(); err != nil {
		return err
	}
	if err := f.folder(path.Dir(name)); err != nil {
		return err
	}
	if f.parent.Link(path.Join(old.name, name), path.Join(f.name, name)) == nil {
		return nil
	}
	data, err := old.root.ReadFile(name)
	if err != nil {
		return err
	}
	return f.create(name, data, nil)
}

// replace makes the new folder the one that old was. Afterwards f's name is that
// of the folder to discard, if there is one.
func (f *fresh) replace(old *old) error {
	if old.root == nil && !old.empty {
		return failed(old.name, f.parent.Rename(f.name, old.name))
	}
	if err := f.parent.Chmod(f.name, old.perm); err != nil {
		return failed(old.name, err)
	}
	if old.empty {
		if err := f.parent.Remove(old.name); err != nil { // as it does if it is empty no more
			return failed(old.name, err)
		}
		return failed(old.name, f.parent.Rename(f.name, old.name))
	}
	if err := settle(f.parent); err != nil {
		return failed(old.name, err)
	}
	if exchange(f.parent, f.name, old.name) == nil {
		return nil
	}
	return f.replaceInSteps(old.name)
}

// replaceInSteps is for systems and file systems that cannot exchange two folders.
// Between its two steps there is no site; tidy repairs what is stopped there.
func (f *fresh) replaceInSteps(name string) error {
	aside := hidden(name, oldInfix+suffix())
	if err := f.parent.Rename(name, aside); err != nil {
		return failed(name, err)
	}
	if err := f.parent.Rename(f.name, name); err != nil {
		if back := f.parent.Rename(aside, name); back != nil {
			return fmt.Errorf("the site could not be put in place, and the old one is now in %q; rename that to %q: %w", aside, name, errors.Join(err, back))
		}
		return failed(name, err)
	}
	f.name = aside
	return nil
}

func (f *fresh) close() {
	if f.root != nil {
		f.root.Close()
	}
}

// discard removes the folder that f names, if it is there.
func (f *fresh) discard() error {
	f.close()
	return discard(f.parent, f.name)
}

// What stands in the names of the folders beside the site.
const (
	newInfix = ".new-"
	oldInfix = ".old-"
)

// hidden returns the name of something that belongs to the folder called name and
// stands beside it. Notes are not read in hidden folders.
func hidden(name, what string) string { return "." + name + what }

func suffix() string { return strings.ToLower(rand.Text()[:10]) }
