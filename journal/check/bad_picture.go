package check

import (
	"errors"
	"io/fs"

	"guidecoat/journal/parallel"
	"guidecoat/journal/picture"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var badPicture = &Check{
	Name:     "bad-picture",
	Severity: problem.Warning,
	Summary:  "a picture or video that cannot be shown",
	Explain: "The page will have a gap where it should be. JPEG, PNG, WebP and GIF are shown, each freed of the place, the camera and all else " +
		"that is written in it; what cannot be freed of it is never published. Only the beginning and the end of a file are looked at here: " +
		"damage in its middle stops publishing.",
	Bad:       "![the beam](photos/beam.heic), as the phone stored it\n",
	Good:      "---\nstage: rear axle\n---\n",
	Elsewhere: true,
	Run: func(p *Pass) {
		files := newFiles(p.State.Build)
		type named struct {
			path, target string
			at           source.Span
		}
		var list []named
		for _, w := range p.notes() {
			references(w.note, func(target string, at source.Span) {
				if found, where := files.find(w.note, target); where == present && p.State.Build.Files[found] {
					list = append(list, named{found, target, at})
				}
			})
		}
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
			p.Report(x.at, quote(x.target)+" is not shown: "+why, help)
		}
	},
}
