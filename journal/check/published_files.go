package check

import (
	"errors"
	"io/fs"
	"slices"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/parallel"
	"guidecoat/journal/picture"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// What the pages cannot show as it was meant.

var badPicture = &Check{
	Name: "bad-picture", Severity: problem.Warning, Stops: true,
	Summary: "a picture, video or other file that is never published",
	Explain: "JPEG, PNG, WebP and GIF are shown, each freed of the place, the camera and all else that is written in it; PDF, TXT, CSV and GPX " +
		"go out as they are. No other file is ever published, since it may hold more than is seen: `publish` and `handover` stop where a page " +
		"would lead to one. Only the beginning and the end of a picture are looked at here: damage in its middle stops publishing too.",
	Example:   "wrong|![the beam](photos/beam.heic), as the phone stored it\nright|---\nright|stage: rear axle\nright|---\n",
	Elsewhere: true,
	Run: func(p *Pass) {
		list := p.files()
		errs := make([]error, len(list))
		parallel.Each(len(list), func(i int) { _, errs[i] = p.State.Build.Picture(list[i].path) })
		for i, x := range list {
			if errs[i] == nil {
				continue
			}
			why, help := "it cannot be read: "+errs[i].Error(), "Allow it to be read, or copy it again."
			if pe, ok := errors.AsType[*fs.PathError](errs[i]); ok {
				why = "it cannot be read: " + pe.Err.Error()
			}
			if refusal, ok := errors.AsType[*picture.Refusal](errs[i]); ok {
				why, help = refusal.Why, refusal.Help
			}
			p.reportFile(x, quote(x.target)+" is not shown: "+why, help)
		}
	},
}

// files are those that the notes name and that are there. Another note is no file: the
// way to it leads to its page.
func (p *Pass) files() []namedFile {
	return slices.DeleteFunc(slices.Clone(p.named()), func(f namedFile) bool {
		return f.where != present || !p.State.Build.Files[f.path] || strings.HasSuffix(f.path, ".md")
	})
}

func (p *Pass) reportFile(x namedFile, message, help string) {
	p.report(problem.Problem{Check: string(p.check.Name), Severity: p.check.Severity, Span: x.at, Message: message, Help: help, File: x.path})
}

var keptInFile = &Check{
	Name: "kept-in-file", Severity: problem.Warning, Privacy: true,
	Summary: "a PDF, text, table or track, which goes out with all that is written in it",
	Explain: "A picture is made anew, but these are copied as they are: a PDF may name who made it and where, " +
		"a track shows where you were. Look into it, and write `; sure` on the line if it may be read.",
	Example: "-- 2026-04-11.md --\n---\nstage: rear axle\nwrong|cost: 138.00 rear axle beam; receipt beam.pdf\nright|cost: 138.00 rear axle beam; receipt beam.pdf; private\n---\n-- beam.pdf --\n%PDF-1.7\n",
	Run: func(p *Pass) {
		said := map[string]bool{}
		for _, x := range p.files() {
			if x.hidden || said[x.path] || !picture.AsItIs(x.path) {
				continue
			}
			said[x.path] = true
			if h, err := p.State.Build.Picture(x.path); h == nil && err == nil {
				p.reportFile(x, quote(x.target)+" goes out as it is, with all that is written in it: who made it, where, and more than is seen",
					"Look into it; in a line or item \"; sure\" says that it may be read.")
			}
		}
	},
}

var outsideBuild = &Check{
	Name: "outside-build", Severity: problem.Warning,
	Summary: "a picture, link or receipt outside the build's folder",
	Explain: "Only files in the build's own folder are published, so that nothing else on your computer can ever get onto a page. " +
		"Copy the file into the build.",
	Example: "wrong|[the test sheet](../mail/test.md)\nright|-- 2026-04-11.md --\nright|[the test sheet](papers/test.md)\nright|-- papers/test.md --\nright|---\nright|page: The test sheet\nright|---\n",
	Run: func(p *Pass) {
		for _, r := range p.named() {
			if !r.number && r.where == outside {
				p.Report(r.at, quote(r.target)+" is outside the build's folder and is not published", "Copy the file into the build.")
			}
		}
	},
}

var rawHTML = &Check{
	Name: "raw-html", Severity: problem.Information,
	Summary: "markup in HTML, which pages show as text",
	Explain: "Pages are made of Markdown alone, so that no note can break or change them. " +
		"HTML is shown as it was typed; only comments are left out.",
	Example: "wrong|Torque the nuts <b>again</b>.\nright|Torque the nuts **again**. <!-- ask what the figure is -->\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			for _, at := range w.note.Markup {
				if at, text := firstLine(at); text != "" && !strings.HasPrefix(text, "</") {
					p.Report(at, "HTML is shown as text: "+quote(text), "Write it as Markdown.")
				}
			}
		}
	},
}

// firstLine returns the first line of a piece of HTML.
func firstLine(at source.Span) (source.Span, string) {
	text := at.Text()
	start := len(text) - len(strings.TrimLeft(text, " \t\r\n"))
	text, _, _ = strings.Cut(text[start:], "\n")
	text = strings.TrimSpace(text)
	return at.Part(start, start+len(text)), text
}

var nothingHere = &Check{
	Name: "nothing-here", Severity: problem.Information,
	Summary: "a job card without any session note",
	Explain: "The build has begun on paper only: there is no dated note yet. " +
		"`guidecoat note` starts one for today.",
	Example: `wrong|-- build.md --
---
wrong|build: Example estate
wrong|currency: GBP
wrong|vat: 20%
wrong|rates:
wrong|  EUR: 0.86
wrong|stages:
wrong|  buying: budget 1500; purchase
wrong|  rear axle: budget 260 340 520; system suspension
wrong|  body: budget 400
right|stage: rear axle
---
`,
	Run: func(p *Pass) {
		b := p.State.Build
		leftOut := func(f source.Fault) bool { return f.Span.File != b.Card.Note.File } // which is no missing note
		if b.Card.Exists && len(b.Sessions) == 0 && !slices.ContainsFunc(p.errors, leftOut) {
			p.Report(b.Card.Note.File.Span(0, 0), "the build "+quote(b.Card.Name)+" has no session note yet", "`guidecoat note` starts one.")
		}
	},
}

var notPortable = &Check{
	Name: "not-portable", Severity: problem.Information,
	Summary: "front matter that other programs would read differently",
	Explain: "guidecoat reads every line as you typed it, so nothing is wrong. " +
		"Other programs that read your notes take front matter as YAML, and would stop here or read something else; quotes around the value mostly settle it.",
	Example: "---\nwrong|title: Beam out: a long day\nright|title: \"Beam out: a long day\"\nstage: rear axle\n---\n",
	Run: func(p *Pass) {
		broken := map[*source.File]bool{}
		for _, f := range p.errors {
			broken[f.Span.File] = broken[f.Span.File] || slices.Contains(brokenFront, f.Flaw)
		}
		differ := make([]*note.Difference, len(p.notes))
		parallel.Each(len(p.notes), func(i int) {
			if n := p.notes[i].note; !broken[n.File] {
				differ[i] = n.NotPortable()
			}
		})
		for _, d := range differ {
			if d == nil {
				continue
			}
			said := "programs that take this for YAML do not read " + quote(d.Typed) + ": they read it as " + quote(d.Read)
			if d.Stops != "" {
				said = "programs that take this for YAML stop here: " + d.Stops
			}
			p.Report(d.At, said, "Put the value in quotes if other programs should read it as you typed it.")
		}
	},
}

// brokenFront are mistakes over which other programs stumble too: one mistake, one message.
var brokenFront = []source.Flaw{note.NotALine, note.RepeatedKey, note.RepeatedName, note.TabIndentation, note.EmptyEntry, note.NotUTF8}
