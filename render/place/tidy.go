package place

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"guidecoat/journal/marker"
)

// tidy puts right what a run that was killed has left beside the folder called
// name. The caller holds the lock, so no run is at work on any of it.
func tidy(parent disk, name string) error {
	entries, err := fs.ReadDir(parent.FS(), ".")
	if err != nil {
		return unseen(name, err)
	}
	for _, entry := range entries {
		left := entry.Name()
		aside := strings.HasPrefix(left, hidden(name, oldInfix))
		if !entry.IsDir() || !aside && !strings.HasPrefix(left, hidden(name, newInfix)) {
			continue
		}
		if _, err := parent.Lstat(path.Join(left, marker.Marker)); err != nil {
			parent.Remove(left) // without the marker ours only if it is empty, and else it stays
			continue
		}
		if aside { // killed between the two steps of replacing: it is the site
			_, err := parent.Lstat(name)
			if errors.Is(err, fs.ErrNotExist) {
				if err = parent.Rename(left, name); err == nil {
					continue
				}
			}
			if err != nil {
				return fmt.Errorf("an earlier run was stopped and left the site in %q; rename that folder to %q: %w", left, name, err)
			}
		}
		if err := discard(parent, left); err != nil {
			return fmt.Errorf("an earlier run was stopped and what it left cannot be removed; delete the folder %q: %w", left, err)
		}
	}
	return nil
}

// discard removes a folder, its marker last: what is left of it if it is stopped
// is then still known as ours. A folder that is not there is fine.
func discard(parent disk, name string) error {
	entries, err := fs.ReadDir(parent.FS(), name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	for _, entry := range entries {
		if entry.Name() == marker.Marker {
			continue
		}
		if err := parent.RemoveAll(path.Join(name, entry.Name())); err != nil {
			return err
		}
	}
	return parent.RemoveAll(name)
}
