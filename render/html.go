package render

import (
	"html/template"
	"slices"
	"strings"

	"guidecoat/journal/measure"
)

// Two small pieces of HTML stand on every page many times over, dates and links.
// They are made here, so that themes print them like words. Words are escaped; the
// addresses are those that package render made up, never one out of a note.

// when writes a date for people and machines; "" for none.
func when(d measure.Date) template.HTML { return timeElement(d, day(d)) }

// shortWhen writes "11 Apr", with the year in a build that lasts longer than one.
func (s *site) shortWhen(d measure.Date) template.HTML {
	return timeElement(d, shortDay(d, s.inYears))
}

func timeElement(d measure.Date, words string) template.HTML {
	if d == 0 {
		return ""
	}
	return template.HTML(`<time datetime="` + d.String() + `">` + words + `</time>`)
}

// lastsYears tells whether what the view tells lies in more than one year.
func (s *site) lastsYears() bool {
	var days []measure.Date
	for _, x := range s.v.Sessions {
		days = append(days, x.Date)
	}
	for _, x := range s.v.Parts {
		for _, e := range x.Events {
			days = append(days, e.Date)
		}
	}
	if s.v.Money != nil {
		for _, l := range s.v.Money.Lines {
			days = append(days, l.Date)
		}
	}
	return len(days) > 0 && inYears(slices.Min(days), slices.Max(days))
}

// link writes words that lead somewhere, or plain words where href is "".
func link(href, words string) template.HTML {
	return around(href, template.HTML(template.HTMLEscapeString(words)))
}

// around makes finished HTML lead somewhere. It must hold no link itself.
func around(href string, inner template.HTML) template.HTML {
	if href == "" || inner == "" {
		return inner
	}
	return template.HTML(`<a href="` + template.HTMLEscapeString(href) + `">` + string(inner) + `</a>`)
}

// joined sets HTML between other HTML.
func joined(list []template.HTML, between string) template.HTML {
	var b strings.Builder
	for i, h := range list {
		if i > 0 {
			b.WriteString(between)
		}
		b.WriteString(string(h))
	}
	return template.HTML(b.String())
}
