package render

import (
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// Pages that are notes: extra ones as the builder wrote them, and for the workshop every note as it was typed.

func extraSheets(s *site) []sheet {
	var list []sheet
	for i, x := range s.v.Pages {
		nav := x.Title
		if i >= mostPages {
			nav = ""
		}
		list = append(list, sheet{path: s.paths.pages[x.Path], nav: nav, heading: x.Title, description: bare(x.Body), typed: true, main: func(p *leaf) {
			p.Raw(`<article>
<header class="head">`)
			typedHeading(p.W, p.heading).Raw(`</header>
<div class="prose"`).Typed().Raw(`>
`)
			p.body(x.Body, x.Title).Raw(`
</div>
</article>
`)
		}})
	}
	if len(s.v.Pages) > mostPages {
		all := pagesSheets(s)
		all[0].nav = s.Word(allPages)
		list = append(list, all...)
	}
	return list
}

// allPages is what the navigation calls the list of those that it does not name.
const allPages = "All pages"

// mostPages is how many extra pages the navigation names, since every page has it.
const mostPages = 12

func pagesSheets(s *site) []sheet {
	return s.extra.sheets(s, allPages, s.Say("Every page of this site besides those of its notes."), func(p *leaf, v volume) {
		p.begin()
		p.volumes(p.extra.book)
		markup.Each(p.W, p.extra.in(v), "</header>\n<ul class=\"notes\">\n", func(x *view.PageView) {
			p.Raw("<li>")
			p.quoted(root(p.path)+p.paths.pages[x.Path], x.Title).Raw("</li>\n")
		}, "</ul>\n")
	})
}

func bindNotes(s *site) {
	each := entry{shelf: "page", name: "All", weight: 1}
	s.notes = bind(binding{front: notesFront, taken: s.paths.taken}, s.o.Notes, func(RawNote) entry { return each })
	s.extra = bind(binding{front: pagesFront, taken: s.paths.taken}, s.v.Pages, func(*view.PageView) entry { return each })
}

func notesSheets(s *site) []sheet {
	return s.notes.sheets(s, "The notes as typed", "Every note of this build as it was typed, with what is wrong with it.", func(p *leaf, v volume) {
		p.begin()
		p.volumes(p.notes.book)
		markup.Each(p.W, p.notes.in(v), "</header>\n<ul class=\"notes\">\n", func(n RawNote) {
			errors, warnings := p.counted(n.told())
			p.Raw("<li>")
			p.link(root(p.path)+p.paths.notes[n.File.Path], n.File.Path).With(` <strong class="late">`, errors, "</strong>").With(` <span class="kind">`, warnings, "</span>").Raw("</li>\n")
		}, "</ul>\n")
	})
}

func noteSheets(s *site) []sheet {
	return pick.Map(s.o.Notes, func(n RawNote) sheet {
		return sheet{path: s.paths.notes[n.File.Path], heading: n.File.Path, description: "The note " + n.File.Path + " as it was typed.", main: func(p *leaf) {
			p.begin()
			told := n.told()
			if errors, warnings := p.counted(told); errors+warnings != "" {
				p.Raw(`<p class="labels">`).With(`<strong class="late">`, errors, "</strong> ").With("<span>", warnings, "</span>").Raw("</p>\n")
			}
			if to := p.paths.byNote[n.File.Path]; to != "" {
				p.Raw("<p>")
				p.link(root(p.path)+to, "The page made of it").Raw("</p>")
			}
			p.Raw(`
</header>
<div class="typed">
`).Markdown(p.md.Note(n.File, told.Problems, told.Read)).Raw(`
</div>
`)
		}}
	})
}

// counted says how much is wrong with a note; "" for nothing.
func (s *voice) counted(t Told) (errors, warnings string) {
	e, w := problem.Count(t.Problems)
	return given(e > 0, s.Say("%d errors", e)), given(w > 0, s.Say("%d warnings", w))
}
