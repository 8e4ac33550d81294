package render

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// What was done, as the handover record tells it: damage and how it was put right, parts, fixes, fasteners.

var (
	packAlbumList  = markup.Around("<ul class=\"album\">\n", "</ul>\n")
	damageList     = markup.Around("<div class=\"hits\">\n", "</div>\n")
	openItems      = markup.Around("<ul class=\"items\">\n", "</ul>\n")
	partsTable     = markup.Around("<table class=\"lines record slim\"><thead><tr><th scope=\"col\">{Part on the vehicle}</th><th scope=\"col\">{Since}</th><th scope=\"col\">{Evidence}</th></tr></thead><tbody>\n", "</tbody></table>\n")
	fixesTable     = markup.Around("<table class=\"lines record slim\"><thead><tr><th scope=\"col\">{What was wrong, and how it was put right}</th><th scope=\"col\">{From and to}</th><th scope=\"col\">{Evidence}</th></tr></thead><tbody>\n", "</tbody></table>\n")
	fastenersTable = markup.Around("<table class=\"lines record slim wide\"><thead><tr><th scope=\"col\">{Fastener, and what is asked for}</th><th scope=\"col\">{Tightened}</th><th scope=\"col\">{Evidence}</th></tr></thead><tbody>\n", "</tbody></table>\n")
	checksTable    = markup.Around("<table class=\"lines record slim\"><thead><tr><th scope=\"col\">{Check}</th><th scope=\"col\">{Result}</th><th scope=\"col\">{On}</th><th scope=\"col\">{Evidence}</th></tr></thead><tbody>\n", "</tbody></table>\n")
	readingsTable  = markup.Around("<table class=\"lines record\"><thead><tr><th scope=\"col\">{Reading}</th><th scope=\"col\">{Before}</th><th scope=\"col\">{Last}</th><th scope=\"col\">{Limits}</th><th scope=\"col\">{Evidence}</th></tr></thead><tbody>\n", "</tbody></table>\n")
	scansTable     = markup.Around("<table class=\"lines record\"><thead><tr><th scope=\"col\">{Control unit}</th><th scope=\"col\">{First scan}</th><th scope=\"col\">{Last scan}</th><th scope=\"col\">{Evidence}</th></tr></thead><tbody>\n", "</tbody></table>\n")
	endsTable      = markup.Around("<table class=\"lines record slim\"><thead><tr><th scope=\"col\">{Certificate}</th><th scope=\"col\">{On}</th><th scope=\"col\">{Until}</th><th scope=\"col\">{Evidence}</th></tr></thead><tbody>\n", "</tbody></table>\n")
)

// packStory tells of a snag that came back what was done.
func (p packLeaf) packStory(x *view.SnagView) {
	events := worthTelling(x)
	if slices.ContainsFunc(events, func(e view.EventView) bool { return e.What == fact.Reopened }) {
		p.events(x, pick.Where(events, func(e view.EventView) bool { return e.What != fact.Remarked }))
		p.Raw("\n")
	}
}

// packRows are the rows of a table.
func packRows[T any](list []T, in *markup.Wrap, write func(packLeaf, T)) []packEntry {
	return pick.Map(list, func(x T) packEntry { return packEntry{weight: 1, in: in, write: func(p packLeaf) { write(p, x) }} })
}

// A repair is what is on the vehicle, and what was put right, of some of its systems.
type repair struct {
	parts []*view.PartView
	fixes []*view.SnagView
}

// repairOf leaves out what follows by itself, and temporary fixes, which have lists of their own.
func repairOf(s *site, systems ...string) repair {
	parts := pick.Where(s.v.Parts, func(x *view.PartView) bool { return isFitted(x) && slices.Contains(systems, x.System) })
	fixes := pick.Where(s.v.Snags, func(x *view.SnagView) bool {
		work := x.Source == fact.FromNote || x.Source == fact.FromInspection || x.Source == fact.FromDamage
		return work && !x.Open && x.ID != "" && !isTemporary(x) && slices.Contains(systems, x.System)
	})
	return repair{parts, fixes}
}

func packDamage(s *site, shown map[string]bool) []packEntry {
	var list []packEntry
	paired := map[*shot]bool{}
	for _, d := range s.v.Damage {
		c := repairOf(s, d.Systems...)
		pair := damagePair(s, d, c, paired)
		for _, x := range pair {
			shown[x.file.at], paired[x] = true, true
		}
		list = append(list, packEntry{weight: 4 + len(c.parts)/4, in: damageList, write: func(p packLeaf) { p.packDamage(d, c, pair) }})
	}
	return list
}

// damagePair are a picture of the damage, and the newest of its systems since a part was fitted.
func damagePair(s *site, d *view.DamageView, c repair, paired map[*shot]bool) []*shot {
	var hit, cured *shot
	for _, f := range d.Photos {
		if f := s.files[f]; hit == nil && f != nil {
			hit = s.shots[f.at]
		}
	}
	var fittedOn measure.Date
	for _, x := range c.parts {
		if on := sinceEvent(x).Date; fittedOn == 0 || on < fittedOn {
			fittedOn = on
		}
	}
	for _, x := range s.album {
		if x.date != 0 && fittedOn != 0 && x.date >= fittedOn && x != hit && slices.Contains(d.Systems, x.place) && !paired[x] {
			cured = x
		}
	}
	return nonNil(hit, cured)
}

// packDamage tells of what was hit in one place, and what is on the vehicle for it now.
func (p packLeaf) packDamage(d *view.DamageView, c repair, pair []*shot) {
	p.Raw("<div class=\"hit\"><h3>").Quote("", title(d.Place), "").Raw("</h3>\n<p>").Quote("", title(d.Words), "").If(d.Flood, " · {flooded}")
	for _, f := range d.Fired {
		p.Raw(" · ").Text(f).Raw(" {had fired}")
	}
	p.Raw("</p>\n")
	markup.Each(p.W, pair, "<div class=\"pair\">", p.onTape, "</div>\n")
	names := pick.Map(c.parts, func(x *view.PartView) string { return x.Description })
	if names == nil {
		names = append(names, pick.Map(c.fixes, func(x *view.SnagView) string { return note.PlainWords(p.wordsOf(x)) })...)
	}
	switch {
	case names != nil:
		p.Raw("<p><b>{Put right with:}</b> ").Quote("", strings.Join(names, "; "), "").Raw(".</p>")
	case d.Systems != nil:
		p.Raw("<p><b>{No part and no fix is recorded for it.}</b></p>")
	}
	p.Raw("</div>\n")
}

// packHappened are the card's own words, and the pictures before anything was fitted.
func packHappened(s *site, shown map[string]bool) []packEntry {
	var list []packEntry
	if tells(s.v.About) {
		list = append(list, packEntry{weight: 4, write: func(p packLeaf) {
			p.Raw("<div class=\"prose\"").Typed().Raw(">\n")
			p.body(p.v.About, opening(p.v.About), p.album...).Raw("\n</div>\n")
		}})
		list = append(list, packAlbum(packEntry{}, bodyPictures(s, packFront, s.v.About), shown)...)
	}
	for _, x := range s.v.Sessions {
		if slices.ContainsFunc(x.Parts, func(e view.PartEvent) bool { return e.State == "fitted" || e.State == "refitted" }) {
			break
		}
		if x.System == "" {
			list = append(list, packAlbum(packEntry{}, bodyPictures(s, packFront, x.Body), shown)...)
		}
	}
	return list
}

// packAlbum are pictures that were not shown yet, as entries of that section.
func packAlbum(of packEntry, pictures []*Picture, shown map[string]bool) []packEntry {
	var list []packEntry
	for _, x := range pictures {
		if shown[x.File] {
			continue
		}
		shown[x.File] = true
		of.weight, of.in, of.write = 2, packAlbumList, func(p packLeaf) {
			x := x.from(p.path)
			writeImage(p.Raw("<li><figure><a").Href(x.Href).Raw(">"), "", p.inTurn(x), "(min-width: 40em) 14rem, 45vw").Raw("</a>").Quote(`<figcaption aria-hidden="true">`, x.Alt, "</figcaption>").Raw("</figure></li>\n")
		}
		list = append(list, of)
	}
	return list
}

// packWork tells what was done on those systems, under the name of each where there are several.
func packWork(systems ...string) func(*site, map[string]bool) []packEntry {
	return func(s *site, shown map[string]bool) []packEntry {
		var list []packEntry
		var of packEntry
		var pictures []*Picture
		for _, system := range systems {
			if len(systems) > 1 {
				of.under = cmp.Or(title(s.Name(system)), "Everything else")
			}
			c := repairOf(s, system)
			for _, x := range c.parts {
				e := of
				e.weight, e.in, e.write = 1, partsTable, func(p packLeaf) { p.packPart(x) }
				list = append(list, e)
				pictures = append(pictures, s.pictures(packFront, x.Photos(), x.Description)...)
			}
			for _, x := range c.fixes {
				list = append(list, packFix(s, of, x))
				pictures = append(pictures, s.pictures(packFront, x.Photos(), note.PlainWords(s.wordsOf(x)))...)
			}
			for _, x := range s.v.Checks {
				if x.System == system {
					pictures = append(pictures, s.pictures(packFront, x.Photos, title(s.Name(x.Name)))...)
				}
			}
			for _, x := range s.v.Sessions {
				if x.System == system {
					pictures = append(pictures, bodyPictures(s, packFront, x.Body)...)
				}
			}
		}
		if len(systems) > 1 {
			of.under = s.Say("Pictures of it")
		}
		return append(list, packAlbum(of, pictures, shown)...)
	}
}

func packFixes(s *site, _ map[string]bool) []packEntry {
	cleared := pick.Where(s.v.Snags, func(x *view.SnagView) bool { return isTemporary(x) && !x.Open })
	list := pick.Map(cleared, func(x *view.SnagView) packEntry { return packFix(s, packEntry{}, x) })
	if list != nil {
		list = append(list, packEntry{weight: 4, write: func(p packLeaf) { p.strip() }})
	}
	return list
}

// packFix is a snag that was put right, as an entry of that section.
func packFix(s *site, of packEntry, x *view.SnagView) packEntry {
	of.weight, of.anchors, of.in, of.write = 2, []string{s.paths.snags[x]}, fixesTable, func(p packLeaf) {
		p.Raw(`<tr id="`).Text(p.paths.snags[x]).Raw(`"><td><p class="words"`)
		p.wording(x.Said, x.Words).Raw("><b>")
		p.snagWords(x, p.wordsOf(x)).Raw("</b>").With(" · ", p.sourceOf(x), "").Raw("</p>")
		p.how(x)
		p.packStory(x)
		p.Raw(`</td><td class="date">`)
		p.shortDate(x.Session, x.Opened)
		if x.Undated {
			p.Raw(", {ticked off, day not recorded}")
		} else if x.Cleared != x.Opened {
			p.Raw(" {to} ")
			p.shortDate(x.ClearedIn, x.Cleared)
		}
		p.Raw("</td><td>")
		p.grade(x.Evidence).Raw("</td></tr>\n")
	}
	return of
}

func (p packLeaf) packPart(x *view.PartView) {
	now := sinceEvent(x)
	p.Raw("<tr><td><b>").Quote("", title(x.Description), "").Raw("</b>").Quote(": ", p.remark(now), "").With(" · ", p.origin(x), "").With(" · {number} ", x.Number, "").
		Quote(" · {from} ", x.Supplier, "").Quote(" · {donor} ", p.donor(x.Donor), "")
	first := true
	markup.Each(p.W, receiptsOf(p.leaf.site, p.path, func(l *view.MoneyLine) bool { return l.Part == x.ID }), " · {receipt} ", func(l Link) {
		p.If(!first, ", ")
		p.link(l.Href, l.Text)
		first = false
	}, "").Raw(`</td><td class="date">`)
	p.shortDate(now.Session, now.Date).If(x.State == "refitted", " <small>{refitted}</small>").Raw("</td><td>")
	p.grade(x.Evidence).Raw("</td></tr>\n")
}

// packFasteners are the fasteners there are; then parts of safety systems that none was listed for.
func packFasteners(s *site, _ map[string]bool) []packEntry {
	list := packRows(slices.Concat(s.v.Fasteners, s.v.Unlisted), fastenersTable, packLeaf.packFastener)
	unlisted := pick.Where(s.v.Parts, func(x *view.PartView) bool {
		return isFitted(x) && slices.ContainsFunc(x.Systems, note.IsSafety) && len(s.v.FastenersOf(x.ID)) == 0
	})
	if bare := pick.Map(unlisted, func(x *view.PartView) string { return x.Description }); bare != nil {
		list = append(list, packEntry{weight: 1 + len(bare)/3, write: func(p packLeaf) {
			p.Raw("<p>{Of these parts none was listed:} ").Quote("", strings.Join(bare, "; "), "").Raw(".</p>\n")
		}})
	}
	return list
}

// packFastener writes what was asked for and what was done last.
func (p packLeaf) packFastener(f *view.FastenerView) {
	p.Raw("<tr><td><b>").Named(f.ID, title(p.Name(f.ID))).Raw("</b>").With(": ", p.Figure(f.Asked), "").If(f.Asked == "", ": {not listed on the job card}").If(f.SingleUse, ", {single use}").If(f.RideHeight, ", {at ride height}").
		Quote(" · ", f.PartName, "").Quote(" · ", f.Words, "").Raw("</td><td>")
	if n := len(f.Tightened); n > 0 {
		t := f.Tightened[n-1]
		putTightening(p.leaf, t)
		p.Raw(", ")
		p.shortDate(t.Session, t.Date)
	} else {
		p.Raw("{not recorded}")
	}
	p.If(f.Loose, ` <strong class="late">{still to be tightened}</strong>`).Raw("</td><td>")
	if len(f.Tightened) > 0 {
		p.grade(view.Measured)
	}
	p.Raw("</td></tr>\n")
}
