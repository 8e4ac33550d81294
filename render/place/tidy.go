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
// name, and returns what it found in it that is not ours. The caller holds the lock,
// so no run is at work on any of it.
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

// tidyOne does so with a folder that is named as ours are. It is left to somebody
// unless our marker is in it, be it without its end, or nothing but what may be one.
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
