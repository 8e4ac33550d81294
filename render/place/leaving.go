package place

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"strings"

	"guidecoat/journal/marker"
)

// A leaving is a folder of ours that is to go. What is not as we wrote it is moved beside the site.
type leaving struct {
	parent disk
	name   string
	site   string                   // the folder of the site
	ours   map[string]marker.Digest // the files in it that we wrote

	dirs  map[string]bool // the folders of our files, with case folded away
	gone  int             // what was removed or moved in this round
	kept  string          // the folder for what is not ours, once there is one
	aside []string        // the paths of what was moved there
}

// clear removes the folder, file by file after a look at each, in rounds until nothing new is found.
func (l *leaving) clear() error {
	l.ours, l.dirs = folded(l.ours), map[string]bool{}
	for name := range l.ours {
		for dir := path.Dir(name); dir != "." && !l.dirs[dir]; dir = path.Dir(dir) {
			l.dirs[dir] = true
		}
	}
	var err error
	for range 100 { // rounds, for somebody who never stops saving
		l.gone = 0
		if err = l.sweep("."); err == nil {
			// The marker last: what is left until then is known as ours.
			err = errors.Join(l.remove(marker.Part), l.remove(marker.Marker), l.remove("."))
		}
		if err == nil || l.gone == 0 {
			break
		}
	}
	return err
}

// sweep empties a folder, if it is there, and returns the first of what went wrong.
func (l *leaving) sweep(dir string) error {
	entries, err := fs.ReadDir(l.parent.FS(), path.Join(l.name, dir))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	for _, entry := range entries {
		name := path.Join(dir, entry.Name())
		if e := l.take(name, entry); err == nil {
			err = e
		}
	}
	return err
}

// take removes one thing if it is ours, and moves it otherwise.
func (l *leaving) take(name string, entry fs.DirEntry) error {
	switch {
	case entry.Type().IsRegular() && (name == marker.Marker || name == marker.Part):
		return nil // see clear
	case entry.IsDir() && l.dirs[fold(name)]:
		if err := l.sweep(name); err != nil {
			return err
		}
		return l.remove(name)
	case entry.IsDir():
		if l.remove(name) == nil { // as it is if nothing is in it
			return nil
		}
		return l.move(name)
	}
	switch ours, err := l.isOurs(name); {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case ours:
		return l.remove(name)
	}
	return l.move(name)
}

// isOurs tells whether a file is as we wrote it, so that nothing is lost with it.
func (l *leaving) isOurs(name string) (bool, error) {
	full := path.Join(l.name, name)
	info, err := l.parent.Lstat(full)
	if err != nil || !info.Mode().IsRegular() {
		return false, err
	}
	want, listed := l.ours[fold(name)]
	if !listed {
		return isDropping(name, info.Mode()), nil
	}
	if now, err := l.parent.Lstat(path.Join(l.site, name)); err == nil && os.SameFile(info, now) {
		return true, nil // the new site has it
	}
	sum, err := digest(l.parent, full)
	if err == nil || errors.Is(err, errNoFile) || errors.Is(err, fs.ErrPermission) {
		return err == nil && sum == want, nil
	}
	return false, err
}

func (l *leaving) remove(name string) error {
	err := l.parent.Remove(path.Join(l.name, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err == nil {
		l.gone++
	}
	return err
}

// move brings something to the folder for what is not ours, and replaces nothing there.
func (l *leaving) move(name string) error {
	dir := func() string { return path.Join(l.kept, path.Dir(name)) }
	if _, err := l.parent.Lstat(path.Join(l.kept, name)); l.kept == "" || err == nil || l.parent.MkdirAll(dir(), 0o700) != nil {
		if err := l.makeKept(); err != nil {
			return err
		}
		if err := l.parent.MkdirAll(dir(), 0o700); err != nil {
			return err
		}
	}
	to := path.Join(l.kept, name)
	err := l.parent.Rename(path.Join(l.name, name), to)
	if errors.Is(err, fs.ErrNotExist) { // it was a file of an editor, for a moment
		for d := dir(); d != "." && l.parent.Remove(d) == nil; d = path.Dir(d) {
		}
		return nil
	}
	if err == nil {
		l.gone++
		l.aside = append(l.aside, to)
	}
	return err
}

// makeKept makes a new folder beside the site, as private as that.
func (l *leaving) makeKept() error {
	for i := 1; ; i++ {
		l.kept = l.site + "-kept"
		if i > 1 {
			l.kept += fmt.Sprint("-", i)
		}
		if err := l.parent.Mkdir(l.kept, 0o700); !errors.Is(err, fs.ErrExist) {
			return err
		}
	}
}

// tidy puts right what a killed run has left, and returns what is not ours. The caller holds the lock.
func tidy(parent disk, name string) (aside []string, err error) {
	entries, err := fs.ReadDir(parent.FS(), ".")
	if err != nil {
		return nil, unseen(name, err)
	}
	for _, entry := range entries {
		rest, ok := strings.CutPrefix(entry.Name(), hidden(name, ""))
		isOld := strings.HasPrefix(rest, oldInfix)
		if !ok || !entry.IsDir() || !isOld && !strings.HasPrefix(rest, newInfix) || !isSuffix(rest[len(newInfix):]) {
			continue
		}
		more, err := tidyOne(parent, name, entry.Name(), isOld)
		aside = append(aside, more...)
		if err != nil {
			return aside, err
		}
	}
	return aside, nil
}

// tidyOne does so with one folder, unless our marker, or a piece of one, is not in it.
func tidyOne(parent disk, name, left string, isOld bool) (aside []string, err error) {
	text, err := readMarker(parent, path.Join(left, marker.Marker))
	if err != nil {
		return nil, unseen(name, err)
	}
	site, whole := marker.Parse(text)
	if site.Audience == "" {
		if entries, err := fs.ReadDir(parent.FS(), left); err == nil && len(entries) == 1 && text != nil {
			_ = parent.Remove(path.Join(left, marker.Marker))
		}
		_ = parent.Remove(left) // as it is if nothing is in it
		return nil, nil
	}
	if _, err := parent.Lstat(name); isOld && whole && errors.Is(err, fs.ErrNotExist) { // killed between the two steps of replacing: it is the site
		if err := parent.Rename(left, name); err != nil {
			return nil, fmt.Errorf("an earlier run was stopped and left the site in %q; rename that folder to %q: %w", left, name, err)
		}
		return nil, nil
	}
	l := leaving{parent: parent, name: left, site: name, ours: site.Files}
	if err := l.clear(); err != nil {
		return l.aside, fmt.Errorf("an earlier run was stopped and what it left cannot be removed; look what is left in it and delete the folder %q: %w", left, err)
	}
	return l.aside, nil
}
