package place

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"

	"guidecoat/journal/marker"
)

// An old is what stands in the output folder: a site, an empty folder or nothing.
type old struct {
	name string
	root disk // nil where there is no site
	// empty says that there is a folder with nothing in it.
	empty bool
	// perm is what the new folder is to have: a private site stays private.
	perm fs.FileMode
	text []byte      // of its marker
	site marker.Site // what the marker tells
	// files has the path of everything in the site but folders and the marker.
	files map[string]bool
}

// repositories keep the history of what is beside them, and would be lost.
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
	for _, entry := range entries { // whatever else there is, they come first
		if marker.IsNote(entry.Name()) {
			return o.foreign(entry.Name())
		}
	}
	if o.text, err = readMarker(o.root, marker.Marker); err != nil {
		return unseen(o.name, err)
	}
	whole := false
	switch o.site, whole = marker.Parse(o.text); {
	case o.text == nil:
		return fmt.Errorf("the folder %q holds files that guidecoat did not put there, such as %q; publish to another folder", o.name, entries[0].Name())
	case !whole:
		return fmt.Errorf("the file %q in the folder %q is damaged or of an earlier version, and does not prove that guidecoat put all there; "+
			"if nothing in that folder is yours, delete it and publish again; otherwise publish to another folder", marker.Marker, o.name)
	case o.site.Audience != audience:
		return fmt.Errorf("the folder %q holds the site for %q; publish the one for %q to another folder, or remove it", o.name, o.site.Audience, audience)
	}
	for _, repository := range repositories {
		if _, err := o.root.Lstat(repository); err == nil {
			return fmt.Errorf("the folder %q holds %q, which would be removed; publish to another folder and copy the site from there", o.name, repository)
		}
	}
	return o.list(fsys)
}

func (o *old) list(fsys fs.FS) error {
	ours := folded(o.site.Files)
	foreign := ""
	err := fs.WalkDir(fsys, ".", func(p string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || p == marker.Marker {
			return err
		}
		if _, listed := ours[fold(p)]; !listed && !isDropping(p, entry.Type()) {
			foreign = p
			return fs.SkipAll
		}
		o.files[p] = true
		return nil
	})
	switch {
	case foreign != "":
		return o.foreign(foreign)
	case err != nil:
		return unseen(o.name, err)
	}
	return nil
}

// folded is a list of files with case folded away, since some disks give back another.
func folded(files map[string]marker.Digest) map[string]marker.Digest {
	out := make(map[string]marker.Digest, len(files))
	for name, sum := range files {
		out[fold(name)] = sum
	}
	return out
}

func isDropping(name string, mode fs.FileMode) bool {
	return mode.IsRegular() && slices.Contains(droppings, path.Base(name))
}

// foreign refuses the folder for what stands in it.
func (o *old) foreign(name string) error {
	if marker.IsNote(name) {
		return fmt.Errorf("the folder %q holds your note %q, which guidecoat did not put there and would remove; publish to another folder, or move the note out", o.name, name)
	}
	return fmt.Errorf("the folder %q holds %q, which guidecoat did not put there and would remove; take it out, or publish to another folder", o.name, name)
}

func unseen(name string, err error) error {
	return fmt.Errorf("cannot look at the folder %q to publish to; %s: %w", name, remedy(err), err)
}

// holds tells whether the old site has that file, as it is to be, and no link.
func (o *old) holds(name string, sum marker.Digest) bool {
	if !o.files[name] {
		return false
	}
	was, err := digest(o.root, name)
	return err == nil && was == sum
}

func (o *old) close() {
	if o.root != nil {
		o.root.Close()
	}
}
