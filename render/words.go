package render

import (
	"strings"

	"guidecoat/journal/view"
)

// Labels are the words that a theme may replace. What warns, or stands in the way of the sale, is not among them.
var Labels = []string{
	// What the navigation and the headings of pages say.
	"Build", "Sessions", "Pictures", "Money", "Snags", "Parts", "Measured", "Measured and checked", "Handover record", "Selling", "Notes", "The notes as typed",
	// Headings within pages.
	"Newest session", "Outstanding", "Temporary fixes", "Temporary fixes over time", "To be done", "Told to the buyer", "Stage by stage", "The vehicle", "Hours by week", "Time", "Checked", "Fault scans", "Opened", "Cleared", "Earlier", "Later",
	"The sale", "Forecast", "Running total", "By stage", "By stage and category", "Budgets", "Against the budgets", "What matters most", "Go on or stop", "By category", "By supplier", "Every line",
	"An advert", "Open snags over time", "Readings", "Checks", "Damage", "Fasteners",
	// Key figures.
	"Work", "Paid", "Net on the work", "Sold for", "Profit", "Parts fitted", "Checks done", "Odometer", "Money back", "Net", "Kept in the garage", "Ready", "Final cost", "Profit per hour", "Break-even", "Floor", "Asking price", "Surcharge to come",
}

// The icon beside a page's title: a grey panel with a strip of masking tape.
const (
	iconName = "icon.svg"
	icon     = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" rx="6" fill="#55626b"/><g fill="#1b1f22"><circle cx="7" cy="6" r="1.3"/><circle cx="22" cy="5" r="1"/><circle cx="27" cy="9" r="1.4"/><circle cx="14" cy="9" r=".9"/><circle cx="9" cy="27" r="1.2"/><circle cx="24" cy="26" r="1.1"/></g><path d="M0 21 32 11l0 7-32 10z" fill="#ecdca6"/></svg>`
)

// A front is the picture that stands for the build in previews, and maybe on its front page.
type front struct {
	picture *Picture          // as seen from the front page
	session *view.SessionView // it is of; nil for the job card
}

// findFront takes the job card's first picture, else that of the newest session, else any.
func findFront(s *site) *front {
	const at = "index.html"
	all := s.pictures(at, s.v.Files, "")
	if all == nil {
		return nil
	}
	if list := bodyPictures(s, at, s.v.About); len(list) > 0 {
		return &front{list[0], nil}
	}
	for i := len(s.sessions) - 1; i >= 0; i-- {
		if list := bodyPictures(s, at, s.sessions[i].Body); len(list) > 0 {
			return &front{list[0], s.sessions[i]}
		}
	}
	return &front{all[0], nil}
}

// from is a picture of the top of the site as seen from a page.
func (p *Picture) from(at string) *Picture {
	if root(at) == "" {
		return p
	}
	return p.below(strings.TrimSuffix(root(at), "/"))
}

// below is the picture as seen from the folder above that one.
func (p Picture) below(folder string) *Picture {
	p.Src, p.Href, p.File = folder+"/"+p.Src, folder+"/"+p.Href, folder+"/"+p.File
	if p.Srcset != "" {
		p.Srcset = folder + "/" + strings.ReplaceAll(p.Srcset, ", ", ", "+folder+"/")
	}
	return &p
}
