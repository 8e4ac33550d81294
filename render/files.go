package render

import (
	"bytes"
	"errors"
	"fmt"
	"net/url"
	"path"
	"strings"

	"github.com/yuin/goldmark/ast"
	"golang.org/x/text/unicode/norm"

	"guidecoat/journal/note"
	"guidecoat/journal/parallel"
	"guidecoat/journal/pick"
	"guidecoat/journal/picture"
	"guidecoat/journal/view"
	"guidecoat/render/markdown"
	"guidecoat/render/photo"
	"guidecoat/render/place"
)

// The files of the build that pages show or lead to, and what the bodies of notes refer to.

// lookAtFiles settles what becomes of each file. A link to a note leads to its page; a picture that is unclean is not shown.
func (s *site) lookAtFiles() error {
	s.files, s.spelt = map[string]*file{}, map[string]string{}
	plans, errs := make([]*photo.Plan, len(s.v.Files)), make([]error, len(s.v.Files))
	parallel.Each(len(s.v.Files), func(i int) { plans[i], errs[i] = s.look(s.v.Files[i]) })
	taken := map[string]int{}
	var broken []error
	for i, p := range s.v.Files {
		name, ext := path.Base(p), path.Ext(p)
		s.spelt[norm.NFC.String(p)] = p
		_, refused := errors.AsType[*picture.Refusal](errs[i])
		switch plan := plans[i]; {
		case refused, strings.EqualFold(ext, ".md"):
		case errs[i] != nil:
			broken = append(broken, fmt.Errorf("%s: %w", p, errs[i]))
		case plan != nil:
			s.files[p] = &file{plan, picturePath(plan.Sizes[len(plan.Sizes)-1])}
		default:
			s.files[p] = &file{at: unique(taken, "files/", strings.TrimSuffix(name, ext), "."+slug(ext))}
		}
	}
	return errors.Join(broken...)
}

func (s *site) look(p string) (*photo.Plan, error) {
	if s.o.Look != nil {
		return s.o.Look(p)
	}
	data, err := s.o.Read(p)
	if err != nil {
		return nil, err
	}
	return photo.Look(p, data)
}

func picturePath(z photo.Size) string { return picturesFolder + z.Name }

func (s *site) fileJobs() []job {
	var jobs []job
	made := map[string]bool{}
	for _, p := range s.v.Files {
		f := s.files[p]
		if f == nil || made[f.at] { // two equal pictures are one
			continue
		}
		made[f.at] = true
		job := func() ([]place.File, error) { return s.fileJob(p, f) }
		if f.picture != nil && s.o.Photos != nil {
			job = s.o.Photos.of(job)
		}
		jobs = append(jobs, job)
	}
	return jobs
}

// of counts a job, before any is done.
func (p *Progress) of(j job) job {
	p.all++
	return func() ([]place.File, error) {
		files, err := j()
		p.mu.Lock()
		defer p.mu.Unlock()
		p.done++
		p.Tell(p.done, p.all)
		return files, err
	}
}

func (s *site) fileJob(p string, f *file) ([]place.File, error) {
	if f.picture == nil {
		data, err := s.o.Read(p)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p, err)
		}
		if plan, err := photo.Look(p, data); plan != nil || err != nil { // as it was not when it was looked at
			return nil, fmt.Errorf("%s: %w", p, photo.ErrChanged)
		}
		return []place.File{{Path: f.at, Data: data}}, nil
	}
	files := s.stored(f.picture)
	if files != nil {
		return files, nil
	}
	sizes, err := f.picture.Make(func() ([]byte, error) { return s.o.Read(p) })
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p, err)
	}
	for i, z := range f.picture.Sizes {
		files = append(files, place.File{Path: picturePath(z), Data: sizes[i]})
		if s.o.Store != nil {
			s.o.Store.Put(z.Name, sizes[i])
		}
	}
	return files, nil
}

// stored are all sizes of a picture as the store holds them, nil if one is not there.
func (s *site) stored(plan *photo.Plan) []place.File {
	if s.o.Store == nil {
		return nil
	}
	var files []place.File
	for _, z := range plan.Sizes {
		data, ok := s.o.Store.Get(z.Name)
		if !ok {
			return nil
		}
		files = append(files, place.File{Path: picturePath(z), Data: data})
	}
	return files
}

// find returns the shown file that a note in dir refers to, nil where there is none.
func (s *site) find(dir, ref string) *file {
	if ref == "" {
		return nil
	}
	if f := s.file(path.Join(dir, ref)); f != nil {
		return f
	}
	return s.file(path.Join(s.v.BuildPath, ref))
}

// file returns the shown file at a path, however its letters with marks are spelt.
func (s *site) file(p string) *file {
	if f := s.files[p]; f != nil {
		return f
	}
	return s.files[s.spelt[norm.NFC.String(p)]]
}

// picture describes a picture for a page.
func (s *site) picture(at string, f *file, alt string) *Picture {
	sizes := f.picture.Sizes
	middle, large := sizes[len(sizes)/2], sizes[len(sizes)-1]
	p := &Picture{Src: root(at) + picturePath(middle), File: root(at) + f.at, Width: large.Width, Height: large.Height, Alt: alt}
	p.Href = p.File
	if x := s.shots[f.at]; x != nil {
		p.Href = root(at) + x.page
	}
	if len(sizes) > 1 {
		set := pick.Map(sizes, func(z photo.Size) string { return fmt.Sprintf("%s%s %dw", root(at), picturePath(z), z.Width) })
		p.Srcset = strings.Join(set, ", ")
	}
	return p
}

func (s *site) pictures(at string, files []string, alt string) []*Picture {
	var list []*Picture
	for _, p := range files {
		if f := s.files[p]; f != nil && f.picture != nil {
			list = append(list, s.picture(at, f, alt))
		}
	}
	return list
}

// follow says where a link leads from a page; "" where what it names is not shown.
func (s *site) follow(at, dir, target string) string {
	u, err := url.Parse(target)
	switch {
	case err != nil:
		return ""
	case u.Scheme != "" || u.Host != "" || u.Path == "" || strings.HasPrefix(target, "//"):
		return target
	}
	for _, base := range []string{dir, s.v.BuildPath} {
		p := path.Join(base, u.Path)
		if to := s.paths.byNote[p]; to != "" {
			return root(at) + to
		}
		if f := s.file(p); f != nil {
			return root(at) + f.at
		}
	}
	return ""
}

// unescaped undoes the percent signs of a link's target.
func unescaped(target string) string {
	if plain, err := url.PathUnescape(target); err == nil {
		return plain
	}
	return target
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

// inText is how wide a picture in running text is shown; the theme's layout must agree.
const inText = "(min-width: 64em) 42rem, 94vw"

// linksFrom says where what a body in dir refers to leads from a page. Pictures shown elsewhere are left out.
func linksFrom(s *site, at, dir string) markdown.Links {
	return markdown.Links{
		Link: func(target string) string { return s.follow(at, dir, target) },
		Picture: func(target, alt string) (markdown.Picture, bool) {
			f := s.find(dir, unescaped(target))
			if f == nil || f.picture == nil {
				return markdown.Picture{}, false
			}
			p := s.picture(at, f, alt)
			out := markdown.Picture{Src: p.Src, Srcset: p.Srcset, Href: p.Href, Width: p.Width, Height: p.Height}
			if out.Srcset != "" {
				out.Sizes = inText
			}
			return out, true
		},
		Snag:   func(id string) string { return s.toID(at, id) },
		Tongue: s.Tongue,
		Lang:   s.spoken(),
	}
}

// bodyPictures are the pictures in a body but for those in its items, which may not be shown.
func bodyPictures(s *site, at string, b *view.Body) []*Picture {
	return pick.Map(shotsIn(s, b), func(x shot) *Picture { return s.picture(at, x.file, x.alt) })
}

func shotsIn(s *site, b *view.Body) []shot {
	if b == nil || b.Doc == nil || !bytes.Contains(b.Source, []byte("![")) { // to parse it takes long
		return nil
	}
	var list []shot
	_ = ast.Walk(b.Doc(), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n := n.(type) {
		case *ast.ListItem:
			return ast.WalkSkipChildren, nil
		case *ast.Image:
			target := unescaped(string(n.Destination))
			if f := s.find(b.Dir, target); entering && f != nil && f.picture != nil && !b.Later[target] {
				list = append(list, shot{file: f, alt: note.PlainText(n, b.Source), alone: n.Parent().Kind() == ast.KindParagraph && n.Parent().ChildCount() == 1})
			}
		}
		return ast.WalkContinue, nil
	})
	return list
}

// bare returns the words of the first paragraph of a body, without markup.
func bare(b *view.Body) string {
	if b == nil {
		return ""
	}
	return b.Lead
}

// tells tells whether a body holds more than headings.
func tells(b *view.Body) bool {
	if b == nil || b.Doc == nil {
		return false
	}
	for n := b.Doc().FirstChild(); n != nil; n = n.NextSibling() {
		if kind := n.Kind(); kind != ast.KindHeading && kind != ast.KindThematicBreak {
			return true
		}
	}
	return false
}

// opening is the heading that a body begins with, "" where it begins with none.
func opening(b *view.Body) string {
	if h, ok := b.Doc().FirstChild().(*ast.Heading); ok {
		return note.PlainText(h, b.Source)
	}
	return ""
}
