package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"guidecoat/render"
)

// A siteMemory is what was noted of the pages in one output folder when they were
// put there: what each was made of, its size and its time. It lies in the user's
// folder for what may be lost; without it, every page is made again.
//
// A page is taken for as it was made only as long as size and time are those noted
// then: whoever edits a page in the output folder gets it back as it should be.
type siteMemory struct {
	file   string // where it is kept; "" for nowhere
	target string

	was map[string]pageTrace // not changed any more
	mu  sync.Mutex
	now map[string]render.Digest
}

type pageTrace struct {
	of       render.Digest
	size     int64
	modified int64 // in nanoseconds
}

// memoryForm begins the file of a memory. Another form is not read.
const memoryForm = "guidecoat pages 1\n"

// rememberSite reads what was noted of the target folder.
func (w *world) rememberSite(target string) *siteMemory {
	m := &siteMemory{target: target, now: map[string]render.Digest{}}
	if full, err := filepath.Abs(target); err == nil && w.cache != "" {
		name := sha256.Sum256([]byte(full))
		m.file = filepath.Join(w.cache, "guidecoat", "pages", hex.EncodeToString(name[:16]))
		if data, err := os.ReadFile(m.file); err == nil {
			m.was = readTraces(data)
		}
	}
	return m
}

// readTraces reads the lines of a memory; nothing of one that is damaged.
func readTraces(data []byte) map[string]pageTrace {
	text, ok := strings.CutPrefix(string(data), memoryForm)
	if !ok {
		return nil
	}
	traces := make(map[string]pageTrace, strings.Count(text, "\n"))
	for line := range strings.Lines(text) {
		path, t, ok := readTrace(strings.TrimSuffix(line, "\n"))
		if !ok {
			return nil
		}
		traces[path] = t
	}
	return traces
}

// readTrace reads "digest size time path".
func readTrace(line string) (path string, t pageTrace, ok bool) {
	fields := strings.SplitN(line, " ", 4)
	if len(fields) < 4 || len(fields[0]) != hex.EncodedLen(len(t.of)) {
		return "", t, false
	}
	_, bad := hex.Decode(t.of[:], []byte(fields[0]))
	size, badSize := strconv.ParseInt(fields[1], 10, 64)
	modified, badTime := strconv.ParseInt(fields[2], 10, 64)
	t.size, t.modified = size, modified
	return fields[3], t, errors.Join(bad, badSize, badTime) == nil
}

// Stands looks whether the page is still there as it was noted.
func (m *siteMemory) Stands(path string, of render.Digest) bool {
	t, ok := m.was[path]
	if !ok || t.of != of {
		return false
	}
	info, err := os.Lstat(filepath.Join(m.target, filepath.FromSlash(path)))
	return err == nil && info.Mode().IsRegular() && info.Size() == t.size && info.ModTime().UnixNano() == t.modified
}

// Made notes what a page is made of.
func (m *siteMemory) Made(path string, of render.Digest) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.now[path] = of
}

// keep writes down what was made, now that it stands in the target folder. What
// cannot be kept costs the next run time and nothing else, so nobody is told.
func (m *siteMemory) keep() {
	if m.file == "" {
		return
	}
	var b bytes.Buffer
	b.WriteString(memoryForm)
	for _, path := range slices.Sorted(maps.Keys(m.now)) {
		info, err := os.Lstat(filepath.Join(m.target, filepath.FromSlash(path)))
		if err != nil {
			continue
		}
		fmt.Fprintf(&b, "%x %d %d %s\n", m.now[path], info.Size(), info.ModTime().UnixNano(), path)
	}
	dir := filepath.Dir(m.file)
	if os.MkdirAll(dir, 0o700) != nil {
		return
	}
	out, err := os.CreateTemp(dir, "new-*") // for nobody else to read, as it tells of private notes
	if err != nil {
		return
	}
	_, err = out.Write(b.Bytes())
	if errors.Join(err, out.Close()) != nil || os.Rename(out.Name(), m.file) != nil {
		os.Remove(out.Name())
	}
}

// maker stands for this very program, so that a page made by another is made again.
func maker() string {
	path, err := os.Executable()
	if err != nil {
		return version()
	}
	info, err := os.Stat(path)
	if err != nil {
		return version()
	}
	return fmt.Sprint(version(), info.Size(), info.ModTime().UnixNano())
}
