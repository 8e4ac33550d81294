package check

import (
	"errors"
	"io/fs"
	"slices"
	"strings"

	"guidecoat/journal/parallel"
	"guidecoat/journal/picture"
	"guidecoat/journal/problem"
)

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
