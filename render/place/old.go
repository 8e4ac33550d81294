package place

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"

	"guidecoat/journal/marker"
)

// An old is what stands in the output folder: a site, an empty folder or nothing.
type old struct {
	name string
	root disk // nil where there is no site
	// empty says that there is a folder with nothing in it.
	empty bool
	// perm is what the new folder is to have: that of the old one, lest a private
	// site become public.
	perm fs.FileMode
	// files has the path of everything in the site that is not a folder, without
	// the marker.
	files map[string]bool

	buffer []byte
}

// repositories are the folders that keep the history of what is beside them.
// They would be lost with the folder they are in.
var repositories = []string{".git", ".hg", ".svn"}

// droppings are what systems leave in folders that somebody has looked at.
var droppings = []string{".DS_Store", "Thumbs.db", "desktop.ini"}

// look returns what stands in the folder called name, or why it cannot be replaced.
func look(parent disk, name, audience string) (*old, error) {
	info, err := parent.Lstat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &old{name: name, perm: 0o755}, nil
	case err != nil:
		return nil, unseen(name, err)
	case info.Mode()&fs.ModeSymlink != 0:
		return nil, fmt.Errorf("%q is a symbolic link; publish to the folder that it leads to, or remove it", name)
	case !info.IsDir():
		return nil, fmt.Errorf("%q is a file, not a folder; publish to another folder, or remove it", name)
	}
	o := &old{name: name, perm: info.Mode().Perm(), files: map[string]bool{}}
	if o.root, err = parent.within(name); err != nil {
		return nil, unseen(name, err)
	}
	if err := o.read(audience); err != nil {
		o.close()
		return nil, err
	}
	if o.empty {
		o.close()
		o.root = nil
	}
	return o, nil
}

// read lists the files, and refuses a folder that is not ours to replace.
func (o *old) read(audience string) error {
	fsys := o.root.FS()
	entries, err := fs.ReadDir(fsys, ".")
	if err != nil {
		return unseen(o.name, err)
	}
	if len(entries) == 0 {
		o.empty = true
		return nil
	}
	switch found, ours := marker.Read(fsys, "."); {
	case !ours:
		return fmt.Errorf("the folder %q holds files that guidecoat did not put there; publish to another folder, or empty it", o.name)
	case found != audience:
		return fmt.Errorf("the folder %q holds the site for %q; publish the one for %q to another folder, or remove it", o.name, found, audience)
	}
	for _, repository := range repositories {
		if _, err := o.root.Lstat(repository); err == nil {
			return fmt.Errorf("the folder %q holds %q, which would be removed; publish to another folder and copy the site from there", o.name, repository)
		}
	}
	return o.list(fsys)
}

// list takes up the files, and refuses where one of them is not ours.
func (o *old) list(fsys fs.FS) error {
	listed, err := marker.Files(fsys, ".")
	if err != nil {
		return unseen(o.name, err)
	}
	ours := map[string]bool{}
	for path := range listed {
		ours[fold(path)] = true
	}
	foreign := ""
	err = fs.WalkDir(fsys, ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || path == marker.Marker {
			return err
		}
		if listed != nil && !ours[fold(path)] && !slices.Contains(droppings, entry.Name()) {
			foreign = path
			return fs.SkipAll
		}
		o.files[path] = true
		return nil
	})
	switch {
	case foreign != "":
		return fmt.Errorf("the folder %q holds %q, which guidecoat did not put there and would remove; take it out, or publish to another folder", o.name, foreign)
	case err != nil:
		return unseen(o.name, err)
	}
	return nil
}

func unseen(name string, err error) error {
	return fmt.Errorf("cannot look at the folder %q to publish to; %s: %w", name, remedy(err), err)
}

// holds tells whether the old site has that file, byte for byte. One that cannot
// be read, or is a link that somebody put there, is not the same.
func (o *old) holds(file File) bool {
	if !o.files[file.Path] {
		return false
	}
	info, err := o.root.Lstat(file.Path)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(file.Data)) {
		return false
	}
	in, err := o.root.Open(file.Path)
	if err != nil {
		return false
	}
	defer in.Close()
	if len(o.buffer) < len(file.Data) {
		o.buffer = make([]byte, len(file.Data))
	}
	n, err := io.ReadFull(in, o.buffer[:len(file.Data)])
	return err == nil && bytes.Equal(o.buffer[:n], file.Data)
}

func (o *old) close() {
	if o.root != nil {
		o.root.Close()
	}
}
