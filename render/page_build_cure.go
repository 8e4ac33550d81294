package render

import (
	"slices"

	"guidecoat/journal/pick"
	"guidecoat/journal/view"
)

// What stands first: how the vehicle came, what it has become, and what that took.

// took says in one sentence what it took, as far as the view tells it.
func took(s *site) string {
	var list []string
	if n := view.DistinctDays(s.v.Sessions); n > 0 {
		list = append(list, s.Say("%d days", n))
	}
	if s.v.Minutes > 0 {
		list = append(list, s.Say("%s of work", s.v.Minutes))
	}
	if n := fittedParts(s); n > 0 {
		list = append(list, s.Say("%d parts", n))
	}
	if hasMoney(s) && !s.v.Money.Costs.Net.IsZero() {
		list = append(list, s.Say("%s net", s.sum(s.v.Money.Costs.Net)))
	}
	if list == nil {
		return ""
	}
	all, right := s.List(list...), tallyOf(s).cleared
	switch sold := s.v.SoldOn != 0; {
	case sold && right > 0:
		return s.Say("It took %[2]s to put %[1]d things right.", right, all)
	case sold:
		return s.Say("It took %s.", all)
	case right > 0:
		return s.Say("So far it has taken %[2]s to put %[1]d things right.", right, all)
	}
	return s.Say("So far it has taken %s.", all)
}

func fittedParts(s *site) int {
	return pick.Count(s.v.Parts, fitted)
}

func (p buildLeaf) cured(list ...*shot) {
	list = nonNil(list...)
	if len(list) == 0 {
		return
	}
	p.Raw("<div class=\"cure\">\n")
	for _, x := range list {
		pic := p.shot(p.path, x)
		writeImage(p.Raw("<figure><a").Href(pic.Href).Raw(">"), "", p.inTurn(pic), "(min-width: 48em) 50vw, 100vw").Raw(`</a><figcaption><span class="tape">`)
		writeTime(p.W, x.date, p.Day(x.date)).Raw("</span> ").Quote("", pic.Alt, "").Raw("</figcaption></figure>\n")
	}
	p.Raw("</div>\n")
}

func nonNil(list ...*shot) []*shot {
	return slices.DeleteFunc(slices.Clone(list), func(x *shot) bool { return x == nil })
}
