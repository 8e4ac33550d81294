package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/measure"
	"guidecoat/journal/picture"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render"
	placing "guidecoat/render/place"
	"guidecoat/themes"

	"github.com/spf13/cobra"
)

// publishing is what the flags of `publish` ask for.
type publishing struct {
	day      measure.Date
	audience string
	to       string // the folder; "" for the one beside the notes
	theme    string
	baseURL  string
}

func newPublish(w *world) *cobra.Command {
	o := publishing{audience: string(view.ForPublic), theme: themes.Default}
	cmd := &cobra.Command{
		Use:   "publish [DIR]",
		Short: "Writes the site.",
		Long: "Writes the static site of a build, or of a garage with all its builds: for the public, for the buyer, or for the workshop " +
			"with everything in it. " +
			"The folder holds the whole old site until it holds the whole new one. Only a folder that guidecoat wrote for the same " +
			"audience is ever replaced.\n\nIf the notes hold errors, nothing is written.",
		Example:           "guidecoat publish halden\nguidecoat publish halden --for buyer --to /tmp/halden-buyer",
		Args:              oneFolder,
		ValidArgsFunction: completeFolders,
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := w.load(folder(args), o.day)
			if err != nil {
				return err
			}
			p.least = leastFor(view.Audience(o.audience))
			if err := w.refuseErrors(p, "published"); err != nil {
				return err
			}
			if o.audience == string(view.ForPublic) {
				if err := w.tellLeaks(p); err != nil {
					return err
				}
			}
			return w.publish(p, o, nil)
		},
	}
	word(cmd, &o.audience, "for", "write for this `AUDIENCE`: public, buyer or workshop", "audience", audiences)
	cmd.Flags().StringVar(&o.to, "to", "", "write into `FOLDER` instead of one beside the notes")
	themeFlag(cmd, &o.theme)
	addressFlag(cmd, &o.baseURL)
	asOf(cmd, &o.day, howItStood)
	return cmd
}

func audiences() []string {
	var names []string
	for _, a := range view.Audiences {
		names = append(names, string(a))
	}
	return names
}

// leastFor is the least of the problems that a site shows beside the notes.
func leastFor(a view.Audience) problem.Severity {
	if a == view.ForWorkshop {
		return problem.Information
	}
	return problem.Warning
}

// refuseErrors says what is wrong with the notes and ends the run where that is
// more than warnings.
func (w *world) refuseErrors(p *place, what string) error {
	err := w.tell(p)
	if err != nil {
		fmt.Fprintln(w.stderr, "Nothing was "+what+": put the errors right first.")
	}
	return err
}

// tellLeaks shows the words that tell the public what the job card keeps from it:
// once the site is out it is too late to look for them.
func (w *world) tellLeaks(p *place) error {
	leaks := slices.DeleteFunc(slices.Clone(p.problems()), func(pr problem.Problem) bool { return pr.Check != check.PrivateWords })
	text := problem.Text{Colour: newScreen(w.stderr, w.getenv).colour}
	if err := text.Write(w.stderr, leaks); err != nil {
		return cannotPrint(err)
	}
	return nil
}

// publish renders everything, then puts it in place. Pack makes the view of a buyer's
// pack; nil for a site without one.
func (w *world) publish(p *place, o publishing, pack func(*state.State) *view.View) error {
	theme, err := w.theme(p.dir, o.theme)
	if err != nil {
		return err
	}
	target := o.to
	if target == "" {
		target = filepath.Join(p.dir, siteFolder(view.Audience(o.audience)))
	}
	root, err := os.OpenRoot(p.dir)
	if err != nil {
		return fileTrouble("", "%v", err)
	}
	defer root.Close()
	pictures := w.album()
	defer pictures.tidy()
	files, err := w.render(p, root, o, theme, pack, pictures)
	if err != nil {
		return fileTrouble("Nothing was written.", "%v", err)
	}
	var unmade error // rather than not put in place
	report, err := put(target, o.audience, func(yield func(placing.File, error) bool) {
		for f, err := range files {
			if unmade = err; !yield(f, err) {
				return
			}
		}
	})
	switch {
	case unmade != nil:
		return fileTrouble("Nothing was written.", "%v", unmade)
	case err != nil:
		return fileTrouble("", "%v", err)
	}
	if report.Unchanged {
		fmt.Fprintf(w.stderr, "%s is up to date: nothing has changed.\n", clean(target))
	} else {
		fmt.Fprintf(w.stderr, "%s: %s written, %d kept, %d removed.\n", clean(target), count(report.Written, "file"), report.Kept, report.Removed)
	}
	fmt.Fprintln(w.stdout, clean(filepath.Join(target, "index.html")))
	return nil
}

// siteFolder is where a site goes unless the user says otherwise.
func siteFolder(a view.Audience) string {
	if a == view.ForPublic {
		return "site"
	}
	return "site-" + string(a)
}

// render makes the files of the site, out of those in root.
func (w *world) render(p *place, root *os.Root, o publishing, theme *themes.Theme, pack func(*state.State) *view.View, pictures *album) (render.Files, error) {
	to := view.Audience(o.audience)
	options := render.Options{Theme: theme, BaseURL: o.baseURL, Version: version(), Store: pictures,
		Read: func(name string) ([]byte, error) { return readFile(root, name) }}
	if p.garage != nil {
		var views []*view.View
		for _, st := range p.states {
			views = append(views, view.Of(st, to))
		}
		return render.GarageSite(garageOf(p, views), options)
	}
	options.Notes = rawNotes(p, p.builds[0])
	view := view.Of(p.states[0], to)
	if pack != nil {
		view = pack(p.states[0])
	}
	return render.Site(view, options)
}

// readFile reads a file that a page shows, and none that a link leads out of the
// build to, or that is too large.
func readFile(root *os.Root, name string) ([]byte, error) {
	name = filepath.FromSlash(name)
	if info, err := root.Stat(name); err == nil && picture.Fits(info.Size()) != nil {
		return nil, picture.Fits(info.Size())
	}
	return root.ReadFile(name)
}

// garageOf is the garage as the views show its builds.
func garageOf(p *place, views []*view.View) render.Garage {
	g := render.Garage{Name: p.garage.Name}
	for i, b := range p.builds {
		g.Builds = append(g.Builds, render.Build{Path: b.Path, View: views[i], Notes: rawNotes(p, b)})
	}
	return g
}

// rawNotes are the notes of a build as typed, each with its problems. They are
// rendered for the workshop alone.
func rawNotes(p *place, b *journal.Build) []render.RawNote {
	byFile := map[*source.File][]problem.Problem{}
	for _, pr := range p.problems() {
		byFile[pr.Span.File] = append(byFile[pr.Span.File], pr)
	}
	var list []render.RawNote
	add := func(f *source.File) { list = append(list, render.RawNote{File: f, Problems: byFile[f]}) }
	add(b.Card.Note.File)
	for _, s := range b.Sessions {
		add(s.Note.File)
	}
	for _, pg := range b.Pages {
		add(pg.Note.File)
	}
	return list
}

// put brings the files into the target folder, whose parent must exist.
func put(target, audience string, files render.Files) (placing.Report, error) {
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
	return placing.Put(parent, filepath.Base(full), audience, files)
}
