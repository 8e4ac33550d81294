package themes

import (
	"fmt"
	"io"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal/near"
)

// A Folder is a builder's own theme.
type Folder struct {
	Name   string // what mistakes in it are told by
	FS     fs.FS
	Labels []string // those that may be called otherwise
}

// A Fault is a mistake in a builder's theme.
type Fault struct{ Place, What string }

// Faults are all mistakes in a builder's theme.
type Faults []Fault

func (list Faults) Error() string {
	var said []string
	for _, f := range list {
		said = append(said, f.Place+": "+f.What)
	}
	return strings.Join(said, "; ")
}

const (
	styleFile = "style.css"    // instead of the theme's style
	touchFile = "touch-in.css" // added to the style
	wordsFile = "words.txt"    // what labels are called: a line for each
)

// What a theme may hold, and how large. Names of pictures are addresses, and must do on every host.
const (
	mayHold    = "a theme is style.css, touch-in.css, words.txt and up to 61 pictures named like paint-chip.png (png, jpg, gif, webp), each a plain file"
	maxFiles   = 64
	maxStyle   = 256 << 10
	maxWords   = 16 << 10
	maxPicture = 2 << 20
	maxLabel   = 60 // characters
)

var pictureName = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,60}\.(png|jpg|jpeg|gif|webp)$`)

// limit is how large a file of that name may be; 0 where a theme holds none.
func limit(name string) int64 {
	switch {
	case name == styleFile, name == touchFile:
		return maxStyle
	case name == wordsFile:
		return maxWords
	case pictureName.MatchString(name):
		return maxPicture
	}
	return 0
}

// layOver puts what the folder holds over a theme, but for hidden files.
func (d *Folder) layOver(t *Theme) error {
	entries, err := fs.ReadDir(d.FS, ".")
	if err != nil {
		return err
	}
	var touch []byte
	var refused []string
	var faults Faults
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") {
			continue
		}
		place, most := path.Join(d.Name, name), limit(name)
		if most == 0 || !e.Type().IsRegular() || len(t.Own) == maxFiles { // a pipe would be waited for for ever, and a link may lead anywhere
			refused = append(refused, name)
			continue
		}
		data, err := d.read(name, most+1)
		if err != nil {
			return err
		}
		if int64(len(data)) > most {
			faults = append(faults, Fault{place, fmt.Sprintf("it is larger than %d KB", most>>10)})
		}
		t.Own = append(t.Own, name)
		switch name {
		case styleFile:
			t.Style = data
		case touchFile:
			touch = data
		case wordsFile:
			faults = append(faults, d.readWords(t.Words, place, string(data))...)
		default:
			t.Pictures = append(t.Pictures, Picture{name, data})
		}
	}
	t.Style = slices.Concat(t.Style, touch)
	if n := len(refused); n > 0 {
		which := strings.Join(refused[:min(n, 5)], ", ")
		if n > 5 {
			which += fmt.Sprintf(" and %d more", n-5)
		}
		faults = append(faults, Fault{d.Name, "it may not hold " + which + ": " + mayHold})
	}
	if faults != nil {
		return faults
	}
	return nil
}

func (d *Folder) read(name string, most int64) ([]byte, error) {
	f, err := d.FS.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most))
}

// readWords reads what labels are called: "Snags: Still to mend". # begins a remark.
func (d *Folder) readWords(words map[string]string, file, text string) (faults Faults) {
	nth := 0
	for line := range strings.Lines(strings.TrimPrefix(text, "\ufeff")) {
		nth++
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		label, called, ok := strings.Cut(line, ":")
		label, called = strings.TrimSpace(label), strings.TrimSpace(called)
		fault := ""
		switch {
		case !ok:
			fault = "a line of words is a label, a colon and what it is called, such as: Snags: Still to mend"
		case !slices.Contains(d.Labels, label):
			fault = fmt.Sprintf("no page has a label %q", label)
			if n := near.Nearest(label, d.Labels); n != "" {
				fault += fmt.Sprintf("; the nearest is %q", n)
			}
		case words[label] != "":
			fault = fmt.Sprintf("%q is called twice", label)
		case called == "":
			fault = fmt.Sprintf("it does not say what %q is called", label)
		case utf8.RuneCountInString(called) > maxLabel:
			fault = fmt.Sprintf("a label has at most %d characters", maxLabel)
		case strings.ContainsFunc(called, func(r rune) bool { return r == utf8.RuneError || !unicode.IsGraphic(r) }):
			fault = "it holds a character that cannot be shown"
		default:
			words[label] = called
		}
		if fault != "" {
			faults = append(faults, Fault{fmt.Sprintf("%s:%d", file, nth), fault})
		}
	}
	return faults
}
