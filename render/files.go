package render

import (
	"errors"
	"fmt"
	"net/url"
	"path"
	"strings"
	"sync"

	"guidecoat/journal/parallel"
	"guidecoat/journal/pick"
	"guidecoat/journal/picture"
	"guidecoat/render/photo"
	"guidecoat/render/place"

	"golang.org/x/text/unicode/norm"
)

type file struct {
	picture *photo.Plan // nil for any other file
	at      string      // in the site; of a picture its largest size
}

type Picture struct {
	Src, Srcset   string
	Href          string // its page in the album, else the file
	File          string // its largest size
	Width, Height int
	Alt           string
	Eager         bool // it is fetched before anybody scrolls to it
}

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

const picturesFolder = "pictures/"

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

// A Progress is how many pictures are done, of how many. Tell is called by one at a time.
type Progress struct {
	Tell      func(done, all int)
	mu        sync.Mutex
	done, all int
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
	if f.picture != nil {
		if files := s.stored(f.picture); files != nil {
			return files, nil
		}
	}
	read := func() ([]byte, error) { return s.o.Read(p) }
	if f.picture == nil {
		data, err := read()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p, err)
		}
		if plan, err := photo.Look(p, data); plan != nil || err != nil { // as it was not when it was looked at
			return nil, fmt.Errorf("%s: %w", p, photo.ErrChanged)
		}
		return []place.File{{Path: f.at, Data: data}}, nil
	}
	sizes, err := f.picture.Make(read)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p, err)
	}
	var files []place.File
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
	case u.Scheme != "" || u.Host != "" || strings.HasPrefix(target, "//"):
		return target
	case u.Path == "":
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
