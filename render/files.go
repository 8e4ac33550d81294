package render

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"net/url"
	"path"
	"slices"
	"strings"

	"guidecoat/render/photo"
	"guidecoat/render/place"
)

// A file is one of the build's files that the site shows.
type file struct {
	picture *photo.Plan // nil for any other file
	at      string      // in the site; of a picture its largest size
}

// A Picture is what a template needs to show one.
type Picture struct {
	Src, Srcset   string
	Href          string // its largest size
	Width, Height int
	Alt           string
}

// mute are files that may say where and with what they were made, and that
// guidecoat cannot clean. None of them is ever published.
var mute = []string{".jpg", ".jpeg", ".png", ".gif", ".heic", ".heif", ".avif", ".webp", ".tif", ".tiff", ".bmp", ".dng", ".cr2", ".cr3", ".nef", ".arw", ".svg", ".mov", ".mp4", ".m4v", ".avi", ".3gp"}

// lookAtFiles settles what becomes of every file that the view names. Notes are
// never copied: a link to one leads to its page, if it has one.
func (s *site) lookAtFiles() error {
	s.files = map[string]*file{}
	var errs []error
	taken := map[string]bool{}
	for _, p := range s.v.Files {
		if strings.EqualFold(path.Ext(p), ".md") {
			continue
		}
		data, err := s.o.Read(p)
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", p, err))
			continue
		}
		plan, err := photo.Look(data)
		ext := strings.ToLower(path.Ext(p))
		switch {
		case err == nil:
			s.files[p] = &file{plan, picturePath(plan.Sizes[len(plan.Sizes)-1])}
		case !errors.Is(err, photo.ErrUnknown) || slices.Contains(mute, ext):
			errs = append(errs, fmt.Errorf("%s: %w", p, err))
		default:
			name := path.Base(p)
			s.files[p] = &file{at: unique(taken, "files/", name[:len(name)-len(ext)], "."+slug(ext))}
		}
	}
	return errors.Join(errs...)
}

func picturePath(z photo.Size) string { return "pictures/" + z.Name }

// fileJobs make the pictures and the copies.
func (s *site) fileJobs() []job {
	var jobs []job
	made := map[string]bool{}
	for _, p := range s.v.Files {
		f := s.files[p]
		if f == nil || made[f.at] { // two equal pictures are one
			continue
		}
		made[f.at] = true
		jobs = append(jobs, func() ([]place.File, error) {
			files, err := s.fileJob(p, f)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", p, err)
			}
			return files, nil
		})
	}
	return jobs
}

func (s *site) fileJob(p string, f *file) ([]place.File, error) {
	if f.picture != nil {
		if files := s.madeBefore(f.picture); files != nil {
			return files, nil
		}
	}
	data, err := s.o.Read(p)
	if err != nil {
		return nil, err
	}
	if f.picture == nil {
		return []place.File{{Path: f.at, Data: data}}, nil
	}
	sizes, err := f.picture.Make(data)
	if err != nil {
		return nil, err
	}
	var files []place.File
	for i, z := range f.picture.Sizes {
		files = append(files, place.File{Path: picturePath(z), Data: sizes[i]})
	}
	return files, nil
}

func (s *site) madeBefore(plan *photo.Plan) []place.File {
	if s.o.Made == nil {
		return nil
	}
	var files []place.File
	for _, z := range plan.Sizes {
		data, ok := s.o.Made(picturePath(z))
		if !ok || bytes.TrimSpace(data) == nil {
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
	if f := s.files[path.Join(dir, ref)]; f != nil {
		return f
	}
	return s.files[path.Join(s.v.BuildPath, ref)]
}

// picture describes a picture for a page.
func (s *site) picture(at string, f *file, alt string) *Picture {
	sizes := f.picture.Sizes
	small, large := sizes[0], sizes[len(sizes)-1]
	p := &Picture{Src: root(at) + picturePath(small), Href: root(at) + f.at, Width: large.Width, Height: large.Height, Alt: alt}
	if len(sizes) > 1 {
		var set []string
		for _, z := range sizes {
			set = append(set, fmt.Sprintf("%s%s %dw", root(at), picturePath(z), z.Width))
		}
		p.Srcset = strings.Join(set, ", ")
	}
	return p
}

// pictures describes those of a list of files that are pictures.
func (s *site) pictures(at string, files []string, alt string) []*Picture {
	var list []*Picture
	for _, p := range files {
		if f := s.files[p]; f != nil && f.picture != nil {
			list = append(list, s.picture(at, f, alt))
		}
	}
	return list
}

// receipt is a receipt's name, leading to its file where it is one.
func (s *site) receipt(at, notePath, ref string) template.HTML {
	if f := s.find(path.Dir(notePath), ref); f != nil {
		return link(root(at)+f.at, path.Base(ref))
	}
	return link("", ref)
}

// follow says where a link in a note leads from a page of the site; "" where what
// it names is not shown. Addresses elsewhere stay as they are.
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
		if f := s.files[p]; f != nil {
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
