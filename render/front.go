package render

import (
	"strings"

	"guidecoat/journal/view"
)

// A front is the picture that stands for the build in previews and, where the job
// card shows none, on its front page.
type front struct {
	picture *Picture          // as seen from the front page
	session *view.SessionView // it is of; nil for the job card
}

// findFront takes the job card's first picture, else that of the newest session that
// shows one, else any; nil where there is none.
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
