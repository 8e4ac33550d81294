package place

import (
	"io/fs"
	"maps"
	"os"
	"slices"
	"sync/atomic"

	"guidecoat/journal/marker"
	"guidecoat/journal/parallel"
)

// Mark returns what stands for all of the site in a folder: the digest of its marker,
// which lists every file with its own.
func Mark(site *os.Root) (marker.Digest, error) { return digest(folder{site}, marker.Marker) }

// Stands tells whether a folder holds the whole site of that mark as it was put there,
// byte for byte, and no other file.
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

// OpenFile opens a file to be read, and nothing that is none: it never waits for the
// other end of a pipe, and follows no link.
func OpenFile(root *os.Root, name string) (*os.File, error) { return openFile(folder{root}, name) }
