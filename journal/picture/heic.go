//go:build heic

package picture

// The decoder of HEIC carries a machine of its own, several megabytes of it, and
// so is built in only where somebody asks for it:
//
//	go install -tags heic,nodynamic ./cmd/guidecoat
//
// With nodynamic it never takes a library of the system's in place of its own. It
// turns pictures itself, as their file says, and what EXIF says does not count.
import _ "github.com/gen2brain/heic"
