package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"guidecoat/journal/check"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render"
	placing "guidecoat/render/place"
	"guidecoat/themes"

	"github.com/spf13/cobra"
)

type publishing struct {
	day      measure.Date
	audience view.Audience
	to       string // the folder; "" for the one beside the notes
	theme    string
	baseURL  string
}

func newPublish(w *world) *cobra.Command {
	o := publishing{audience: view.ForPublic, theme: themes.Default}
	cmd := &cobra.Command{
		Use:   "publish [DIR]",
		Short: "Writes the site.",
		Long: "Writes the static site of a build, or of a garage with all its builds: for the public, for the buyer, or for the workshop " +
			"with everything in it. " +
			"The folder holds the whole old site until it holds the whole new one. Only a folder that guidecoat wrote for the same " +
			"audience is ever replaced.\n\nIf the notes hold errors, nothing is written.",
		Example: "guidecoat publish halden\nguidecoat publish halden --for buyer --to /tmp/halden-buyer",
	}
	audienceFlag(cmd, &o.audience)
	cmd.Flags().StringVar(&o.to, "to", "", "write into `FOLDER` instead of one beside the notes")
	themeFlag(cmd, &o.theme)
	addressFlag(cmd, &o.baseURL)
	asOf(cmd, &o.day, howItStood)
	return onFolder(cmd, func(_ *cobra.Command, dir string) error {
		last := w.lastRun(dir, o)
		if last.stands() {
			return last.tell()
		}
		return last.repeat()
	})
}

func audienceFlag(cmd *cobra.Command, to *view.Audience) {
	names := pick.Map(view.Audiences(), func(a view.Audience) string { return string(a) })
	word(cmd, (*string)(to), "for", "write for this `AUDIENCE`: "+strings.Join(names, ", "), "audience", func() []string { return names })
}

// leastFor is the least of the problems that a site shows beside the notes.
func leastFor(a view.Audience) problem.Severity {
	return pick.Either(view.CopyFor(a).AsTyped, problem.Information, problem.Warning)
}

// refuseErrors says what is wrong with the notes, and ends the run where there are errors.
func (w *world) refuseErrors(p *place, what string) error {
	err := w.tellOf(p, p.problems(), false)
	if err != nil {
		w.say("Nothing was %s: put the errors right first.", what)
	}
	return err
}

// heed shows the problems that concern what the views will tell, and ends the run where one of them must.
func (w *world) heed(p *place, views []*view.View) error {
	shown := map[string]bool{}
	private, names := true, true // are meant to be told
	for _, v := range views {
		private, names = private && v.TellsPrivate(), names && v.TellsNames()
		for _, f := range v.Files {
			shown[f] = true
		}
	}
	var told []problem.Problem
	stops := false
	for _, pr := range p.problems() {
		c := check.Named(pr.Check)
		switch {
		case !c.Privacy && !c.Stops, pr.File != "" && !shown[pr.File]:
		case c.Privacy && private, c.Name == check.PrivateWords && names:
		default:
			if c.Stops {
				stops, pr.Severity = true, problem.Error
			}
			told = append(told, pr)
		}
	}
	text := problem.Text{Colour: newScreen(w.stderr, w.getenv).colour}
	if err := text.Write(w.stderr, told); err != nil {
		return cannotPrint(err)
	}
	if !stops {
		return nil
	}
	fmt.Fprintln(w.stderr, "Nothing was written: put the errors right first.")
	return &exit{code: exitProblems}
}

// publish renders everything, then puts it in place. Pack makes the view of a buyer's pack, last notes the run; either may be nil.
func (w *world) publish(p *place, o publishing, pack func(*state.State) *view.View, last *lastRun) error {
	if o.folder() == "" {
		return wrongUsage("Choose one of those that `guidecoat publish --help` lists.", "there is no audience %q", o.audience)
	}
	if pack == nil {
		pack = func(st *state.State) *view.View { return view.Of(st, o.audience) }
	}
	views := pick.Map(p.states, pack)
	if err := w.heed(p, views); err != nil {
		return err
	}
	theme, err := w.theme(p.dir, o.theme, last.watchedTheme())
	if err != nil {
		return err
	}
	target, site := o.target(p.dir), placing.Site{Audience: string(o.audience), Build: p.siteName()}
	root, err := os.OpenRoot(p.dir)
	if err != nil {
		return fileTrouble("", "%v", err)
	}
	defer root.Close()
	pictures := w.store("pictures")
	defer pictures.tidy()
	photos, rub := w.photoLine()
	files, err := w.render(p, root, o, theme, views, pictures, photos)
	if err != nil {
		return fileTrouble("Nothing was written.", "%v", err)
	}
	last.told()
	var unmade error // rather than not put in place
	report, err := put(target, site, func(yield func(placing.File, error) bool) {
		for f, err := range files {
			if unmade = err; !yield(f, err) {
				return
			}
		}
	})
	rub()
	for _, name := range report.Aside {
		w.say("%s was in %s, not as guidecoat wrote it; it is kept here.", filepath.Join(filepath.Dir(target), filepath.FromSlash(name)), target)
	}
	switch {
	case unmade != nil:
		return fileTrouble("Nothing was written.", "%v", unmade)
	case err != nil:
		return fileTrouble("", "%v", err)
	}
	last.keep()
	w.tellPublished(target, report)
	return nil
}

func (w *world) tellPublished(target string, report placing.Report) {
	other := pick.Either(report.Other, " It held the site of another build, or of this one under another name.", "")
	if report.Unchanged {
		w.say("%s is up to date: nothing has changed.", target)
	} else {
		w.say("%s: %s written, %d kept, %d removed.%s", target, count(report.Written, "file"), report.Kept, report.Removed, other)
	}
	fmt.Fprintln(w.stdout, clean(filepath.Join(target, "index.html")))
}

func (o publishing) target(dir string) string {
	if o.to != "" {
		return o.to
	}
	return filepath.Join(dir, o.folder())
}

func (o publishing) folder() string { return view.CopyFor(o.audience).Folder }

// render makes the site, and lets go of what was read: it is four times the room of what is shown of it.
func (w *world) render(p *place, root *os.Root, o publishing, theme *themes.Theme, views []*view.View, pictures *store, photos *render.Progress) (render.Files, error) {
	seen := p.seen
	options := render.Options{Theme: theme, BaseURL: o.baseURL, Version: version(), Store: pictures, Photos: photos,
		Read: func(name string) ([]byte, error) { return seen.read(root, name) }}
	if p.garage != nil {
		all := garageOf(p, o.audience, views, false)
		p.forget()
		return render.GarageSite(all, options)
	}
	options.Notes = rawNotes(p, 0, views[0], false)
	p.forget()
	return render.Site(views[0], options)
}

func garageOf(p *place, to view.Audience, views []*view.View, later bool) render.Garage {
	g := render.Garage{Copy: view.CopyFor(to), Name: p.garage.Name}
	for i, b := range p.builds {
		g.Builds = append(g.Builds, render.Build{Path: b.Path, View: views[i], Notes: rawNotes(p, i, views[i], later)})
	}
	return g
}

// rawNotes are the notes as typed, with their problems and what their lines were understood to say, where that is shown.
// A preview, which shows few of them, finds that out later; until then they keep the whole build.
func rawNotes(p *place, i int, v *view.View, later bool) []render.RawNote {
	if !v.AsTyped {
		return nil
	}
	b, st := p.builds[i], p.states[i]
	all := sync.OnceValue(func() map[string]*render.Told {
		told := map[string]*render.Told{}
		of := func(path string) *render.Told {
			if told[path] == nil {
				told[path] = &render.Told{Read: map[int]string{}}
			}
			return told[path]
		}
		for _, l := range readingOf(st) {
			if !l.Same() {
				of(l.File()).Read[l.Number()] = l.Words
			}
		}
		for _, pr := range p.problems() {
			t := of(pr.Span.File.Path)
			t.Problems = append(t.Problems, pr)
		}
		return told
	})
	if !later {
		all()
	}
	var list []render.RawNote
	add := func(f *source.File) {
		list = append(list, render.RawNote{File: f, Told: func() render.Told { return *cmp.Or(all()[f.Path], &render.Told{}) }})
	}
	add(b.Card.Note.File)
	for _, s := range st.Sessions { // those after the day that is told of are not shown
		add(s.Note.File)
	}
	for _, pg := range b.Pages {
		add(pg.Note.File)
	}
	return list
}

// put brings the files into the target folder, whose parent must exist.
func put(target string, site placing.Site, files render.Files) (placing.Report, error) {
	full, err := filepath.Abs(target)
	if err != nil {
		return placing.Report{}, err
	}
	if filepath.Dir(full) == full {
		return placing.Report{}, fmt.Errorf("%s: the whole of a disk cannot be the site; name a folder in it", full)
	}
	parent, err := os.OpenRoot(filepath.Dir(full))
	if errors.Is(err, fs.ErrNotExist) {
		return placing.Report{}, fmt.Errorf("the folder %s does not exist: make it first", filepath.Dir(full))
	}
	if err != nil {
		return placing.Report{}, err
	}
	defer parent.Close()
	return placing.Put(parent, filepath.Base(full), site, files)
}
