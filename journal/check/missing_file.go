package check

import (
	"net/url"
	"path"
	"slices"
	"strings"
	"sync"

	"guidecoat/journal"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/picture"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var missingFile = &Check{
	Name: "missing-file", Severity: problem.Warning,
	Summary: "a picture, link or receipt whose file is not there",
	Explain: "The page will have a gap where the file should be. " +
		"Paths go from the note's own folder, or else from the build's, and capitals count.",
	Example: "-- 2026-04-11.md --\nwrong|[the wiring](papers/rear-wirnig.md)\nright|[the wiring](papers/rear-wiring.md)\n-- papers/rear-wiring.md --\n---\npage: The wiring\n---\n",
	Run: func(p *Pass) {
		for _, r := range p.named() {
			if r.number || r.where != absent {
				continue
			}
			help := "Paths go from the note's folder, or else from the build's."
			var fix *source.Fix
			if like := p.names.nearest(r.note, r.target); like != "" {
				help = "Nearest: " + quote(like) + ". " + help
				if i := strings.LastIndex(r.at.Text(), r.target); i >= 0 {
					fix = &source.Fix{Span: r.at.Part(i, i+len(r.target)), Text: like}
				}
			}
			p.ReportFix(r.at, "no file called "+quote(r.target), help, fix)
		}
	},
}

// A namedFile is a file that a note names.
type namedFile struct {
	note   *note.Note
	target string
	at     source.Span
	hidden bool // in a line, an item or a note that is private
	number bool // the number of a receipt, unless there is such a file
	where  whereabouts
	path   string // where it is present
}

// namedIn are all files that notes name: pictures, links, photos of lines, and receipts.
func namedIn(notes []words, names *files) []namedFile {
	var list []namedFile
	for _, w := range notes {
		references(w.note, func(f namedFile) {
			f.note, f.hidden = w.note, f.hidden || w.private
			f.path, f.where = names.find(w.note, f.target)
			list = append(list, f)
		})
	}
	return list
}

func references(n *note.Note, found func(namedFile)) {
	hidden := map[int]bool{}
	line := func(l *note.Line) {
		for i := range l.Clauses {
			if c := &l.Clauses[i]; c.Arg.S != "" && (c.Word == "photo" || c.Word == "receipt") {
				found(namedFile{target: c.Arg.S, at: c.Arg.Whole(), hidden: l.Has("private"), number: c.Word == "receipt" && !picture.Known(c.Arg.S)})
			}
		}
	}
	for _, l := range n.Lines {
		line(l)
	}
	for _, it := range n.Items {
		line(it.Line)
		hidden[it.At] = it.Has("private")
	}
	for _, r := range n.Refs {
		if target := local(r.Target); target != "" {
			found(namedFile{target: target, at: r.Span, hidden: slices.ContainsFunc(r.Within, func(at int) bool { return hidden[at] })})
		}
	}
}

// local returns the path of a link's target, "" where it leads elsewhere.
func local(target string) string {
	if strings.HasPrefix(target, "//") {
		return ""
	}
	if u, err := url.Parse(target); err == nil && len(u.Scheme) > 1 && u.Scheme != "file" {
		return ""
	}
	target, _, _ = strings.Cut(target, "#")
	target, _, _ = strings.Cut(target, "?")
	if plain, err := url.PathUnescape(target); err == nil {
		return plain
	}
	return target
}

// Where a file is that a note names.
type whereabouts int

const (
	present whereabouts = iota
	absent
	outside // not in the build's folder
)

type files struct {
	build   *journal.Build
	folders func() map[string]bool   // that hold files, or folders that do
	named   func() map[string]string // a path for each name, in small letters
	asked   int
}

func filesOf(b *journal.Build) *files {
	return &files{build: b, folders: sync.OnceValue(func() map[string]bool {
		folders := map[string]bool{}
		for p := range b.Files {
			for dir := path.Dir(p); !folders[dir]; dir = path.Dir(dir) {
				folders[dir] = true
			}
		}
		return folders
	}), named: sync.OnceValue(func() map[string]string {
		named := map[string]string{}
		for p := range b.Files {
			lower := strings.ToLower(path.Base(p))
			if other, ok := named[lower]; !ok || p < other {
				named[lower] = p
			}
		}
		return named
	})}
}

// find tells where the file is that a note names, from the note's own folder or
// else from the build's, and its path where it is present.
func (f *files) find(n *note.Note, target string) (string, whereabouts) {
	result := outside
	if path.IsAbs(target) || isDrive(target) {
		return "", result
	}
	for _, dir := range []string{path.Dir(n.File.Path), f.build.Path} {
		p := path.Join(dir, target)
		inside := f.build.Path == "." && p != ".." && !strings.HasPrefix(p, "../") ||
			p == f.build.Path || strings.HasPrefix(p, f.build.Path+"/")
		switch {
		case !inside:
		case f.build.Outside[p]:
			return "", outside
		case f.folders()[p]:
			return p, present
		case f.build.Find(p) != "":
			return f.build.Find(p), present
		default:
			result = absent
		}
	}
	return "", result
}

// isDrive tells whether a path is absolute as Windows or a file URL writes it.
func isDrive(p string) bool {
	return len(p) > 1 && p[1] == ':' || strings.HasPrefix(p, `\`) || strings.HasPrefix(p, "file:")
}

// mostSuggestions bounds the work on a build that has lost a whole folder.
const mostSuggestions = 100

// nearest returns the file that was probably meant: of that name elsewhere, or nearly that name there.
func (f *files) nearest(n *note.Note, target string) string {
	dir, name := path.Dir(n.File.Path), path.Base(target)
	if p, ok := f.named()[strings.ToLower(name)]; ok {
		return relative(dir, p)
	}
	if f.asked++; f.asked > mostSuggestions {
		return ""
	}
	for _, base := range []string{dir, f.build.Path} {
		folder := path.Dir(path.Join(base, target))
		if like := near.Nearest(name, f.in(folder)); like != "" {
			return relative(dir, path.Join(folder, like))
		}
	}
	return ""
}

// in are the names of the files in a folder.
func (f *files) in(folder string) []string {
	var names []string
	for p := range f.build.Files {
		if name := path.Base(p); path.Join(folder, name) == p {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// relative returns the path that leads from a folder to a file, both being
// relative to the same folder.
func relative(dir, file string) string {
	up := ""
	for dir != "." && !strings.HasPrefix(file, dir+"/") {
		dir, up = path.Dir(dir), up+"../"
	}
	if dir != "." {
		file = strings.TrimPrefix(file, dir+"/")
	}
	return up + file
}
