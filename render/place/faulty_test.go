package place

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// A fault is the way in which a step goes wrong.
type fault string

const (
	fails fault = "fails" // it is not done; a write is half done
	lies  fault = "lies"  // it is done, and said to have failed, as network drives may
	dies  fault = "dies"  // neither it nor any later one is done: a power cut, a pulled stick
)

// errDisk is what a disk says that fails.
var errDisk = syscall.EIO

// A plan says which of the steps that a run takes goes wrong.
type plan struct {
	taken []string // what was done so far
	at    int      // the number of the step that goes wrong; below 0 none does
	how   fault
	steps bool // the system cannot exchange two folders
}

func (p *plan) do(what, name string, step func() error) error {
	n := len(p.taken)
	p.taken = append(p.taken, what+" "+name)
	wrong := p.at >= 0 && (n == p.at || n > p.at && p.how == dies)
	if wrong && p.how != lies {
		return &fs.PathError{Op: what, Path: name, Err: errDisk}
	}
	err := step()
	if wrong && err == nil {
		return &fs.PathError{Op: what, Path: name, Err: errDisk}
	}
	return err
}

// A faulty is a real folder below a plan of what goes wrong. It never waits for
// the disk.
type faulty struct {
	folder
	*plan
}

func (d faulty) Lstat(name string) (info fs.FileInfo, err error) {
	err = d.do("look at", name, func() error { info, err = d.folder.Lstat(name); return err })
	return info, err
}

func (d faulty) OpenFile(name string, flag int, perm fs.FileMode) (f *os.File, err error) {
	err = d.do("open", name, func() error { f, err = d.folder.OpenFile(name, flag, perm); return err })
	return f, err
}

func (d faulty) Mkdir(name string, perm fs.FileMode) error {
	return d.do("mkdir", name, func() error { return d.folder.Mkdir(name, perm) })
}

func (d faulty) MkdirAll(name string, perm fs.FileMode) error {
	return d.do("mkdir", name, func() error { return d.folder.MkdirAll(name, perm) })
}

func (d faulty) Chmod(name string, perm fs.FileMode) error {
	return d.do("chmod", name, func() error { return d.folder.Chmod(name, perm) })
}

func (d faulty) Link(from, to string) error {
	return d.do("link", to, func() error { return d.folder.Link(from, to) })
}

func (d faulty) Rename(from, to string) error {
	return d.do("rename", from, func() error { return d.folder.Rename(from, to) })
}

func (d faulty) Remove(name string) error {
	return d.do("remove", name, func() error { return d.folder.Remove(name) })
}

func (d faulty) create(name string) (f file, err error) {
	err = d.do("create", name, func() error { f, err = d.folder.create(name); return err })
	return faultyFile{f, d.plan, name}, err
}

func (d faulty) within(name string) (disk, error) {
	var root disk
	err := d.do("enter", name, func() (err error) { root, err = d.folder.within(name); return err })
	if err != nil {
		return nil, err
	}
	return faulty{root.(folder), d.plan}, nil
}

func (d faulty) settle() error { return d.do("settle", "", func() error { return nil }) }

func (d faulty) exchange(a, b string) error {
	if d.plan.steps {
		return errors.ErrUnsupported
	}
	return d.do("exchange", a, func() error { return d.folder.exchange(a, b) })
}

func (d faulty) FS() fs.FS { return faultyFS{d} }

type faultyFS struct{ d faulty }

func (f faultyFS) Open(name string) (in fs.File, err error) {
	err = f.d.do("open", name, func() error { in, err = f.d.folder.FS().Open(name); return err })
	return in, err
}

type faultyFile struct {
	file
	*plan
	name string
}

func (f faultyFile) Write(data []byte) (int, error) {
	n := 0
	err := f.do("write", f.name, func() (err error) { n, err = f.file.Write(data); return err })
	if err != nil && n == 0 {
		n, _ = f.file.Write(data[:len(data)/2])
	}
	return n, err
}

func (f faultyFile) Sync() error { return f.do("sync", f.name, func() error { return nil }) }

func (f faultyFile) Close() error { return f.do("close", f.name, f.file.Close) }
