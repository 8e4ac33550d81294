package journal

import (
	"bytes"
	"cmp"
	"errors"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync/atomic"

	"guidecoat/journal/marker"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/parallel"
	"guidecoat/journal/source"
)

const (
	CardName   = "build.md"
	GarageName = "garage.md"
)

const (
	Unreadable   source.Flaw = "unreadable"
	LinkedFolder source.Flaw = "linked-folder"
	LeftAlone    source.Flaw = "left-alone"
	OtherEnding  source.Flaw = "other-ending"
	UndatedItems source.Flaw = "undated-items"
	FolderAsNote source.Flaw = "folder-as-note"
	NoCard       source.Flaw = "no-card"
	NoteInSite   source.Flaw = "note-in-site"
)

// ErrNothing says that a folder is neither a build nor a garage.
var ErrNothing = errors.New("there is no build.md here, and no garage.md")

type folder struct {
	path     string // relative to the root; "." for the root itself
	notes    []string
	files    map[string]bool // every file that is not hidden, by its path from the root
	outside  map[string]bool // likewise, links that lead out of the root, unless to a note
	faults   []source.Fault
	children []string // folders below that are builds of their own
}

// scan lists a folder and what is below it, but nothing hidden, published or a build of its own.
func scan(fsys fs.FS, dir string) (*folder, error) {
	f := &folder{path: dir, files: map[string]bool{}, outside: map[string]bool{}}
	return f, f.walk(fsys, dir)
}

func (f *folder) walk(fsys fs.FS, dir string) error {
	entries, err := fs.ReadDir(fsys, dir)
	if err != nil {
		if dir == f.path {
			return err
		}
		f.fault(Unreadable, dir, reason(err))
		return nil
	}
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") {
			continue
		}
		p := path.Join(dir, name)
		isDir, mode := e.IsDir(), e.Type()
		if mode&fs.ModeSymlink != 0 {
			info, err := fs.Stat(fsys, p)
			switch {
			case err != nil:
				f.fault(Unreadable, p, "it is a link that leads nowhere: "+reason(err))
				continue
			case info.IsDir():
				f.fault(LinkedFolder, p, "")
				continue
			case !strings.HasSuffix(name, ".md") && leadsOut(fsys, p): // of a note readText tells
				f.outside[p] = true
				continue
			}
			mode = info.Mode()
		}
		published := false
		if isDir {
			published = f.isPublished(fsys, p)
		}
		switch {
		case isNoFile(mode) && p != path.Join(f.path, CardName): // of which readCard tells
			f.fault(Unreadable, p, errNoFile.Error())
		case isDir && exists(fsys, path.Join(p, CardName)):
			f.children = append(f.children, p)
		case isDir:
			if strings.HasSuffix(name, ".md") {
				f.fault(FolderAsNote, p, "")
			}
			if !published {
				if err := f.walk(fsys, p); err != nil {
					return err
				}
			}
		default:
			f.files[p] = true
			switch {
			case p == path.Join(f.path, CardName):
			case strings.HasSuffix(name, ".md"):
				f.notes = append(f.notes, p)
			case marker.IsNote(name), dateOfName(name).has && path.Ext(strings.ToLower(name)) == ".txt":
				f.otherEnding(fsys, p)
			}
		}
	}
	return nil
}

// isPublished tells whether guidecoat published a folder. A note in it would be lost without a word: an error.
func (f *folder) isPublished(fsys fs.FS, dir string) bool {
	_, published := marker.Read(fsys, dir)
	if published {
		marker.Notes(fsys, dir, func(p string, err error) {
			if err != nil {
				f.fault(Unreadable, p, reason(err))
			} else {
				f.fault(NoteInSite, p, "")
			}
		})
	}
	return published
}

// lost are the faults of notes in published folders.
func (f *folder) lost() []source.Fault {
	return slices.DeleteFunc(slices.Clone(f.faults), func(f source.Fault) bool { return f.Flaw != NoteInSite })
}

func (f *folder) fault(flaw source.Flaw, p, why string) {
	f.faults = append(f.faults, source.Fault{Flaw: flaw, Span: source.NewFile(p, nil).Span(0, 0), Word: p, Why: why})
}

// otherEnding says of a file that is not read for its ending what it seems to be.
func (f *folder) otherEnding(fsys fs.FS, p string) {
	flaw := LeftAlone
	if dateOfName(path.Base(p)).has && marker.IsNote(p) {
		flaw = OtherEnding
	} else if data, err := readText(fsys, p); err == nil && len(note.Open(source.NewFile(p, data)).Fields) > 0 {
		flaw = OtherEnding
	}
	f.fault(flaw, p, "its name does not end in .md")
}

// reason is what an error says, without the path that the message shows anyway.
func reason(err error) string {
	if pe, ok := errors.AsType[*fs.PathError](err); ok {
		return pe.Err.Error()
	}
	return err.Error()
}

func exists(fsys fs.FS, name string) bool {
	_, err := fs.Stat(fsys, name)
	return err == nil
}

// ReadBuild reads and compiles the build in dir of fsys. An error means that the folder could not be read.
func ReadBuild(fsys fs.FS, dir string) (*Build, error) { return (*Reader)(nil).ReadBuild(fsys, dir) }

// ReadCard compiles the card of a build alone. The files beside it are listed, since the card may name some.
func ReadCard(fsys fs.FS, dir string) *Build {
	return readCardAlone(fsys, dir, func(b *Build) { b.readCard(fsys) })
}

func readCardAlone(fsys fs.FS, dir string, read func(*Build)) *Build {
	b := &Build{Path: dir, cardAlone: true}
	if f, err := scan(fsys, dir); err == nil { // an unreadable folder tells of itself where the notes matter
		b.found(fsys, f)
		b.Faults = f.lost()
	}
	read(b)
	b.compile()
	return b
}

// readCard reads the card, an empty one if need be, so that the notes can be checked.
func (b *Build) readCard(fsys fs.FS) {
	p := path.Join(b.Path, CardName)
	data, err := readText(fsys, p)
	file := source.NewFile(p, data)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		b.fault(source.Fault{Flaw: NoCard, Span: file.Span(0, 0), Word: p})
	case err != nil:
		b.fault(source.Fault{Flaw: Unreadable, Span: file.Span(0, 0), Word: p, Why: reason(err), Help: wayOut(err)})
	}
	b.cardOf(file, err == nil)
}

func (b *Build) cardOf(file *source.File, exists bool) {
	n := note.Open(file)
	n.Read(note.Card, cardCurrency(n))
	b.Card = newCard(b, n, exists && !n.Unread)
}

// cardCurrency finds the currency before the lines that need it are read.
func cardCurrency(n *note.Note) money.Currency {
	if f := n.Field("currency"); f != nil {
		if c, ok := money.Lookup(f.Value.S); ok {
			return c
		}
	}
	return money.Currency{Digits: 2} // what most have; the card is reported
}

// keptTrees is how many bytes of notes keep their trees until their pages are made: a site of a thousand notes is made
// in a tenth less time so.
const keptTrees = 4 << 20

// readNotes reads the sessions and pages, on every core.
func (b *Build) readNotes(fsys fs.FS, paths []string, r *Reader) {
	found := make([]*found, len(paths))
	trees := &atomic.Int64{}
	parallel.Each(len(paths), func(i int) { found[i] = r.readNote(fsys, paths[i], b.Card.Currency, trees) })
	for _, f := range found {
		switch {
		case f.fault != nil:
			b.fault(*f.fault)
		case f.page:
			b.Pages = append(b.Pages, newPage(f.note))
		default:
			b.addSession(f.note, f.named)
		}
		if f.note != nil {
			b.Faults = append(b.Faults, f.note.Faults...)
			b.LinesLeftOut += f.note.Lost
		}
	}
	slices.SortStableFunc(b.Sessions, func(x, y *Session) int {
		if x.Date != y.Date {
			return cmp.Compare(x.Date, y.Date)
		}
		return comparePaths(x.Path, y.Path)
	})
	for i, s := range b.Sessions {
		s.Place = i
	}
	slices.SortStableFunc(b.Pages, func(x, y *Page) int { return comparePaths(x.Path, y.Path) })
}

func (r *Reader) readNote(fsys fs.FS, p string, home money.Currency, trees *atomic.Int64) *found {
	data, err := readText(fsys, p)
	if err != nil {
		return &found{fault: &source.Fault{Flaw: Unreadable, Span: source.NewFile(p, nil).Span(0, 0), Word: p, Why: reason(err), Help: wayOut(err)}}
	}
	return r.recall(p, data, home, trees)
}

// understand reads a note. Trees counts the bytes of those that were read so far.
func understand(p string, data []byte, home money.Currency, trees *atomic.Int64) *found {
	n, named := note.Open(source.NewFile(p, data)), dateOfName(path.Base(p))
	f := &found{note: n, named: named}
	switch {
	case named.has || n.OtherText || n.Field("date") != nil || n.Field("page") == nil && hasWork(n):
		n.Read(note.Session, home)
		n.DropFields()
	case n.Field("page") != nil:
		f.page = true
		n.Read(note.Page, home)
	default:
		fault := source.Fault{Flaw: LeftAlone, Span: n.File.Span(0, 0), Word: p}
		if at := taskItem.FindIndex(n.File.Data); at != nil {
			fault = source.Fault{Flaw: UndatedItems, Span: n.File.Span(at[0], at[1]), Word: p}
		}
		return &found{fault: &fault}
	}
	if trees.Add(int64(len(data))) > keptTrees {
		n.DropTree()
	}
	return f
}

var taskItem = regexp.MustCompile(`(?m)^[-*+] \[[ xX]\] `)

// hasWork tells whether a file without a date holds lines of a session, which must not be lost.
func hasWork(n *note.Note) bool {
	return slices.ContainsFunc(note.Session, func(k *note.Kind) bool { return k.Shape != note.One && n.Field(k.Key) != nil })
}

func (b *Build) found(fsys fs.FS, f *folder) {
	b.fsys, b.Files, b.Outside, b.composed = fsys, f.files, f.outside, spellings(f.files)
}

func (r *Reader) ReadBuild(fsys fs.FS, dir string) (*Build, error) {
	return r.readBuild(fsys, dir, &Build{})
}

func (r *Reader) readBuild(fsys fs.FS, dir string, b *Build) (*Build, error) {
	f, err := scan(fsys, dir)
	if err != nil {
		return nil, err
	}
	if r != nil {
		r.last, r.kept = r.kept, make(map[string]*kept, len(r.kept))
	}
	b.Path, b.Faults, b.reader = dir, f.faults, r
	b.found(fsys, f)
	b.readCard(fsys)
	b.readNotes(fsys, f.notes, r)
	b.compile()
	return b, nil
}

func (r *Reader) build(dir string) *Reader {
	if r == nil {
		return nil
	}
	if r.builds[dir] == nil {
		if r.builds == nil {
			r.builds = map[string]*Reader{}
		}
		r.builds[dir] = &Reader{}
	}
	return r.builds[dir]
}

func (r *Reader) recall(p string, data []byte, home money.Currency, trees *atomic.Int64) *found {
	if r == nil {
		return understand(p, data, home, trees)
	}
	r.mu.Lock()
	k := r.last[p]
	r.mu.Unlock()
	if k == nil || k.home != home || !bytes.Equal(k.data, data) {
		k = &kept{data, home, understand(p, data, home, trees)}
	}
	r.mu.Lock()
	r.kept[p] = k
	r.mu.Unlock()
	return k.found
}
