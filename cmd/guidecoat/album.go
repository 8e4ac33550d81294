package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// An album keeps pictures that were made, in the folder that the system has for
// things which can be made again: a build that is published twice, for two
// audiences or into two folders, has its photos worked on once. Pictures are named
// after their content, so one found there is the right one. Whatever fails there
// costs time and nothing else. A nil album keeps nothing.
type album struct {
	dir string
	now func() time.Time
}

// keepUnused is how long a picture is kept that nobody asks for.
const keepUnused = 180 * 24 * time.Hour

// album is nil where the system has no such folder.
func (w *world) album() *album {
	if w.cache == "" {
		return nil
	}
	return &album{dir: filepath.Join(w.cache, "guidecoat", "pictures"), now: w.now}
}

func (a *album) Get(name string) ([]byte, bool) {
	if a == nil {
		return nil, false
	}
	full := filepath.Join(a.dir, name)
	data, err := os.ReadFile(full)
	if err != nil {
		return nil, false
	}
	if info, err := os.Stat(full); err == nil && a.now().Sub(info.ModTime()) > 24*time.Hour {
		_ = os.Chtimes(full, time.Time{}, a.now()) // asked for today
	}
	return data, true
}

// Put writes the picture beside its place and moves it there, so that no half of
// one is ever found.
func (a *album) Put(name string, data []byte) {
	if a == nil || os.MkdirAll(a.dir, 0o700) != nil {
		return
	}
	f, err := os.CreateTemp(a.dir, unfinished+"*")
	if err != nil {
		return
	}
	_, err = f.Write(data)
	if f.Close() != nil || err != nil || os.Rename(f.Name(), filepath.Join(a.dir, name)) != nil {
		_ = os.Remove(f.Name())
	}
}

// unfinished begins the names of files that are being written.
const unfinished = ".new-"

// tidy removes what nobody has asked for in a long time, and what was left unfinished.
func (a *album) tidy() {
	if a == nil {
		return
	}
	entries, _ := os.ReadDir(a.dir)
	for _, e := range entries {
		if info, err := e.Info(); err == nil && a.isOld(info) {
			_ = os.Remove(filepath.Join(a.dir, e.Name()))
		}
	}
}

func (a *album) isOld(info fs.FileInfo) bool {
	age := a.now().Sub(info.ModTime())
	return info.Mode().IsRegular() && (age > keepUnused || strings.HasPrefix(info.Name(), unfinished) && age > time.Hour)
}
