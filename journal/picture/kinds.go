package picture

import (
	"bufio"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"strings"
	"unicode"
	"unicode/utf8"
)

// kinds are the files that are published, by ending. Pictures are made anew; of others a function says why they are none.
var kinds = map[string]func(in *bufio.Reader) string{
	".jpg": nil, ".jpeg": nil, ".png": nil, ".gif": nil, ".webp": nil, ".heic": nil, ".heif": nil,
	".pdf": pdf, ".txt": text, ".csv": text, ".gpx": track,
}

// Known tells whether a file of that name may be published, if it is what its name says.
func Known(name string) bool {
	_, known := kinds[endingOf(name)]
	return known
}

// AsItIs tells whether a file of that name is published as it is, if at all.
func AsItIs(name string) bool { return kinds[endingOf(name)] != nil }

func endingOf(name string) string { return strings.ToLower(path.Ext(name)) }

// otherwise is what to do with all other files.
const otherwise = "Save a picture as JPEG or a paper as PDF, and put all else, such as a video, where it can be linked to."

// copied judges a file that cannot be decoded as a picture.
func copied(name string, r io.ReaderAt, size int64) error {
	ending := endingOf(name)
	is, known := kinds[ending]
	head := make([]byte, len("\x00\x00\x00\x18ftypheic"))
	n, _ := r.ReadAt(head, 0)
	switch boxed := n == len(head) && string(head[4:8]) == "ftyp"; {
	case size == 0 && known:
		return &Refusal{"the file is empty", "Copy it again from where it came."}
	case boxed && (strings.HasPrefix(string(head[8:]), "he") || strings.HasSuffix(string(head), "f1")):
		return &Refusal{"it is a HEIC picture", "Save a copy as JPEG: a phone can be set to take pictures so, and its viewer can export them."}
	case ending == "":
		return &Refusal{"its name has no ending that says what it is, such as .jpg or .pdf", otherwise}
	case !known:
		return &Refusal{"a file that ends in " + ending + " is never published, since it may hold more than is seen", otherwise}
	case is == nil:
		return &Refusal{"it is not a picture, for all its name says", "Save it anew as JPEG, PNG, WebP or GIF."}
	case Fits(size) != nil:
		return Fits(size)
	}
	if why := is(bufio.NewReader(io.NewSectionReader(r, 0, size))); why != "" {
		return &Refusal{why, "Save it anew in the program that it came from."}
	}
	return nil
}

func pdf(in *bufio.Reader) string {
	const begin = "%PDF-"
	if head, _ := in.Peek(len(begin)); string(head) != begin {
		return "it is not a PDF, for all its name says"
	}
	return ""
}

// text wants letters alone, and nothing that a browser may take for a page.
func text(in *bufio.Reader) string {
	for first := true; ; {
		switch r, size, err := in.ReadRune(); {
		case errors.Is(err, io.EOF):
			return ""
		case err != nil:
			return "it cannot be read: " + err.Error()
		case r == utf8.RuneError && size == 1:
			return "it is not text in UTF-8, for all its name says"
		case unicode.IsControl(r) && !strings.ContainsRune("\t\n\r\f", r):
			return "it is not plain text, for all its name says"
		case first && r == '<':
			return "it begins like a web page, for all its name says"
		case !unicode.IsSpace(r) && r != '\ufeff':
			first = false
		}
	}
}

// track wants GPX and nothing in it that a browser would run or load.
func track(in *bufio.Reader) string {
	const not = "it is not a GPX track, for all its name says"
	d := xml.NewDecoder(in)
	for depth, root := 0, false; ; {
		token, err := d.Token()
		switch t := token.(type) {
		case xml.StartElement:
			if depth == 0 && (root || t.Name.Local != "gpx") {
				return not
			}
			if strings.Contains(t.Name.Space, "w3.org") {
				return "it holds a piece of a web page, which a track does not"
			}
			depth, root = depth+1, true
		case xml.EndElement:
			depth--
		case xml.Directive:
			return not
		case xml.ProcInst:
			if t.Target != "xml" {
				return "it asks for a style sheet or another program, which a track does not"
			}
		}
		switch {
		case errors.Is(err, io.EOF) && root:
			return ""
		case err != nil:
			return not
		}
	}
}
