package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/view"
	"guidecoat/render"
	"guidecoat/render/photo"
	"guidecoat/themes"
)

// A workbench makes one edition after the other, and keeps what need not be done again.
type workbench struct {
	w        *world
	dir      string
	audience view.Audience
	theme    string
	reader   journal.Reader
	seen     sightings
	pictures *store
}

type edition struct {
	draft   *render.Draft // nil where the notes hold errors
	trouble *notice       // nil where they hold none
	summary func() string // for the terminal; it waits for every check
}

func (b *workbench) load() (*place, error) {
	return b.w.loadPlace(&place{dir: b.dir, reader: &b.reader}, measure.Date(0))
}

func (b *workbench) next() edition {
	p, err := b.load()
	if err != nil {
		return failed("The notes cannot be read.", err)
	}
	return b.edition(p)
}

// edition settles the site. Its pages are made when they are asked for.
func (b *workbench) edition(p *place) edition {
	views := make([]*view.View, len(p.states))
	var viewed sync.WaitGroup // beside the checks, which take as long
	viewed.Go(func() {
		for i, st := range p.states {
			views[i] = view.Of(st, b.audience)
		}
	})
	p.least = leastFor(b.audience)
	summary := func() string { return p.summary(p.problems()) }
	errs := p.check(problem.Error) // which alone keep a page from being shown
	viewed.Wait()
	if len(errs) > 0 {
		return edition{trouble: explain(errs), summary: summary}
	}
	theme, err := loadTheme(b.dir, b.theme, nil)
	if err != nil {
		return failed("The site cannot be made.", err)
	}
	draft, err := b.draft(p, views, theme)
	if err != nil {
		return failed("The site cannot be made.", err)
	}
	return edition{draft: draft, summary: func() string { return together("; ", summary(), ownSaid(theme, b.theme)) }}
}

func (b *workbench) draft(p *place, views []*view.View, theme *themes.Theme) (*render.Draft, error) {
	options := render.Options{Theme: theme, Version: version(), Read: b.read, Look: b.seen.look, Store: b.pictures}
	if p.garage != nil {
		return render.NewGarageDraft(garageOf(p, b.audience, views, true), options)
	}
	options.Notes = rawNotes(p, 0, views[0], true)
	return render.NewDraft(views[0], options)
}

// read reads a file of the build, and none that a link leads out of it to.
func (b *workbench) read(name string) ([]byte, error) {
	root, err := os.OpenRoot(b.dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	return (*watched)(nil).read(root, name)
}

func failed(heading string, err error) edition {
	return edition{trouble: &notice{Heading: heading, Said: lines(err)}, summary: func() string { return heading + " " + err.Error() }}
}

// explain lists the errors. Warnings stop nothing and are told by `proofread`.
func explain(errs []problem.Problem) *notice {
	n := &notice{Heading: "The notes hold " + count(len(errs), "error") + "."}
	for _, p := range errs {
		if len(n.Said) == maxSaid {
			n.More = fmt.Sprintf("And %d more.", len(errs)-maxSaid)
			break
		}
		at := p.Span.Begin()
		n.Said = append(n.Said, said{fmt.Sprintf("%s:%d:%d", clean(p.Span.File.Path), at.Line, at.Column), clean(p.Check + ": " + p.Message), clean(p.Help)})
	}
	return n
}

// Sightings are what was seen of files. One of the same size and time is the same, as for all that watches files.
type sightings struct {
	dir string

	mu   sync.Mutex
	seen map[string]seen
}

type seen struct {
	size int64
	time time.Time
	plan *photo.Plan
	err  error
}

func (m *sightings) look(name string) (*photo.Plan, error) {
	root, err := os.OpenRoot(m.dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	info, err := root.Stat(filepath.FromSlash(name))
	if err != nil {
		return nil, err
	}
	m.mu.Lock()
	s, ok := m.seen[name]
	m.mu.Unlock()
	if ok && s.size == info.Size() && s.time.Equal(info.ModTime()) {
		return s.plan, s.err
	}
	s = seen{size: info.Size(), time: info.ModTime()}
	data, err := (*watched)(nil).read(root, name)
	if s.err = err; err == nil {
		s.plan, s.err = photo.Look(name, data)
	}
	if _, broken := s.err.(*fs.PathError); broken {
		return nil, s.err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.seen == nil {
		m.seen = map[string]seen{}
	}
	m.seen[name] = s
	return s.plan, s.err
}
