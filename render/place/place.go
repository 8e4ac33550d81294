// Package place puts a finished site in place: a folder that holds the whole old
// site until the instant at which it holds the whole new one.
//
// The new site is written into a folder beside the old one, files that have not
// changed are linked rather than written, and the two folders change places in one
// step. Whoever is stopped on the way, by an error, a signal or a full disk, has
// changed nothing but that other folder, which the next run takes away.
//
// Only a folder that guidecoat published itself, for the same audience, is ever
// replaced, and only what its marker proves to be ours is ever removed; see package
// marker. All else is kept.
package place

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"iter"
	"maps"
	"os"
	"slices"
	"strings"
	"sync/atomic"

	"guidecoat/journal/marker"
	"guidecoat/journal/parallel"
)

// A File is one file of a site. Path is slash-separated and relative to the site.
type File struct {
	Path string
	Data []byte
}

// A Site is what a folder is written for.
type Site struct {
	Audience string
	Build    string // the name of the build, or of the garage
}

// A Report counts what publishing did to the files of a site.
type Report struct {
	Written int // new ones and changed ones
	Kept    int // as they were
	Removed int // no longer part of the site
	// Unchanged says that nothing differed, so that nothing was touched.
	Unchanged bool
	// Other says that the old site was of another build or name.
	Other bool
	// Aside are the paths of what was found in it and is not as we wrote it, also with an error.
	Aside []string
}

// Put makes the folder called name in root hold exactly the files given. The files
// may come in any order; each is done with before the next is asked for.
//
// It refuses, with an error that says how to go on, a folder that is not empty and
// does not prove to be a site for the same audience, one in which there is now
// something of somebody else's, a file or a symbolic link of that name, paths that
// not every system and host can hold, and a second run at the same time.
// An error that comes with a file is returned as it is. After any error the old site
// is as it was, unless the error says where it now is.
func Put(root *os.Root, name string, site Site, files iter.Seq2[File, error]) (Report, error) {
	if !fs.ValidPath(name) || name == "." || strings.ContainsAny(name, `/\`) {
		return Report{}, fmt.Errorf("%q is not the name of a folder; give one without slashes", name)
	}
	if site.Audience == "" || strings.ContainsAny(site.Audience, "\r\n") {
		return Report{}, fmt.Errorf("%q is not the name of an audience; give one word", site.Audience)
	}
	return putOn(folder{root}, name, site, files)
}

func putOn(parent disk, name string, site Site, files iter.Seq2[File, error]) (report Report, err error) {
	release, err := lock(parent, name)
	if err != nil {
		return Report{}, err
	}
	defer release()
	aside, err := tidy(parent, name)
	defer func() { report.Aside = append(aside, report.Aside...) }()
	if err != nil {
		return Report{}, err
	}
	old, err := look(parent, name, site.Audience)
	if err != nil {
		return Report{}, err
	}
	defer old.close()
	next := &fresh{parent: parent, name: hidden(name, newInfix+suffix()), perm: old.perm,
		site: marker.Site{Audience: site.Audience, Build: marker.Of(site.Build), Files: map[string]marker.Digest{}}}
	placed := false
	defer func() {
		next.close()
		if !placed {
			l := leaving{parent: parent, name: next.name, site: name, ours: next.site.Files}
			_ = l.clear() // or the next run does
			aside = append(aside, l.aside...)
		}
	}()

	report, err = fill(next, old, files)
	if err != nil {
		return Report{}, err
	}
	if report.Unchanged {
		return report, nil
	}
	old.close() // some systems do not rename a folder that is open
	next.close()
	left, err := next.replace(old)
	if err != nil {
		return Report{}, err
	}
	placed = true
	l := leaving{parent: parent, name: left, site: name, ours: old.site.Files}
	err = l.clear()
	report.Aside = l.aside
	if err != nil {
		return report, fmt.Errorf("the new site is in place in %q, but the old one could not be removed; look what is left in it and delete the folder %q: %w", name, left, err)
	}
	return report, nil
}

// fill writes what differs and links the rest, but only once a difference is found.
func fill(next *fresh, old *old, files iter.Seq2[File, error]) (Report, error) {
	var (
		report Report
		seen   = paths{}
		same   []string // the paths of files that the old site has, byte for byte
		stood  int      // how many of the paths the old site has
	)
	for file, err := range files {
		if err != nil {
			return Report{}, err
		}
		if err := seen.add(file.Path); err != nil {
			return Report{}, err
		}
		if old.files[file.Path] {
			stood++
		}
		sum := marker.Digest(sha256.Sum256(file.Data))
		next.site.Files[file.Path] = sum
		if old.holds(file.Path, sum) {
			same = append(same, file.Path)
			continue
		}
		report.Written++
		if err := next.write(file.Path, file.Data); err != nil {
			return Report{}, failed(old.name, err)
		}
	}
	report.Kept, report.Removed = len(same), len(old.files)-stood
	report.Other = old.root != nil && old.site.Build != next.site.Build
	report.Unchanged = report.Written == 0 && report.Removed == 0 && string(old.text) == next.site.Text()
	if report.Unchanged {
		return report, nil
	}
	for _, path := range same {
		if err := next.keep(old, path); err != nil {
			return Report{}, failed(old.name, err)
		}
	}
	if err := next.finish(); err != nil {
		return Report{}, failed(old.name, err)
	}
	return report, nil
}

// failed says of an error in writing, if it is one, what it has left behind.
func failed(name string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("the site could not be put in place, and the folder %q is as it was; %s: %w", name, remedy(err), err)
}

// Mark returns the digest of a site's marker, which lists every file with its own.
func Mark(site *os.Root) (marker.Digest, error) { return digest(folder{site}, marker.Marker) }

// Stands tells whether a folder holds the whole site of that mark, and no other file.
func Stands(site *os.Root, mark marker.Digest) bool {
	d := folder{site}
	if now, err := Mark(site); err != nil || now != mark {
		return false
	}
	listed, whole := marker.Read(d.FS(), ".")
	names := slices.Collect(maps.Keys(listed.Files))
	found := 0
	err := fs.WalkDir(d.FS(), ".", func(p string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			found++
		}
		return err
	})
	if err != nil || !whole || found != len(names)+1 { // with the marker
		return false
	}
	var differs atomic.Bool
	parallel.Each(len(names), func(i int) {
		if !differs.Load() {
			now, err := digest(d, names[i])
			if err != nil || now != listed.Files[names[i]] {
				differs.Store(true)
			}
		}
	})
	return !differs.Load()
}

// OpenFile opens a file to be read: no pipe, and nothing that a link leads to.
func OpenFile(root *os.Root, name string) (*os.File, error) { return openFile(folder{root}, name) }

// lock keeps other runs out until release is called, or this run ends: the file beside the folder is held open.
func lock(parent disk, name string) (release func(), err error) {
	held := hidden(name, ".lock")
	for range 100 {
		if info, err := parent.Lstat(held); err == nil && (!info.Mode().IsRegular() || info.Size() > 0) {
			return nil, fmt.Errorf("%q beside the folder %q is not guidecoat's, which needs that name for a moment; rename it", held, name)
		}
		file, err := parent.OpenFile(held, os.O_RDWR|os.O_CREATE, 0o644)
		if err != nil {
			return nil, fmt.Errorf("cannot write beside the folder %q; %s: %w", name, remedy(err), err)
		}
		busy := true
		err = control(file, func(fd uintptr) error { busy = !hold(fd); return nil })
		if !busy && stands(parent, held, file) {
			return func() {
				if stands(parent, held, file) {
					parent.Remove(held)
				}
				file.Close()
			}, nil
		}
		file.Close()
		if err != nil {
			return nil, fmt.Errorf("cannot lock the folder %q; %s: %w", name, remedy(err), err)
		}
		if busy {
			break
		}
	}
	return nil, fmt.Errorf("another run of guidecoat is publishing to %q; wait until it has ended", name)
}

// stands tells whether the open file still has that name, and is empty as ours are.
func stands(parent disk, name string, file *os.File) bool {
	ours, err := file.Stat()
	if err != nil {
		return false
	}
	now, err := parent.Lstat(name)
	return err == nil && os.SameFile(ours, now) && ours.Size() == 0
}

// control calls do with the descriptor of the file.
func control(file *os.File, do func(fd uintptr) error) error {
	conn, err := file.SyscallConn()
	if err != nil {
		return err
	}
	var failed error
	if err := conn.Control(func(fd uintptr) { failed = do(fd) }); err != nil {
		return err
	}
	return failed
}
