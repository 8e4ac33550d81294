package picture

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"io"
)

// Parts are what a walk to the end of a file has found. Of the EXIF data only the orientation is read.
type parts struct {
	exif                 []byte
	whole                bool // whether the end is there
	moving, lossy, clear bool // of WebP: several pictures; with loss; with transparency
	lossless             bool // of WebP: without loss, which takes more memory
	quarters             int  // what a pixel takes while it is decoded; 0 where that was not found
}

const (
	exifHead = "Exif\x00\x00"
	maxEXIF  = 1 << 16 // as much as the segment of a JPEG can hold
	// maxParts bounds the walk. An ordinary picture has a few thousand; beyond it the decoder judges.
	maxParts = 100_000
)

func bytesAt(r io.ReaderAt, at, n int64) []byte {
	b := make([]byte, n)
	if got, _ := r.ReadAt(b, at); int64(got) < n {
		return nil
	}
	return b
}

// walkJPEG finds the EXIF data in the segment APP1, which stands before the scan.
func walkJPEG(r io.ReaderAt, size int64) parts {
	const (
		frame, passes     = 0xC0, 0xC2
		app1, adobe, scan = 0xE1, 0xEE, 0xDA
		end               = "\xFF\xD9"
	)
	var (
		found       parts
		frameHead   []byte
		progressive bool
		converted   bool
	)
	at := int64(2)
	for range maxParts {
		head := bytesAt(r, at, 4)
		switch {
		case head == nil:
			return found
		case head[0] != 0xFF: // odd, but perhaps not for the decoder
			found.whole = true
			return found
		case head[1] == 0xFF: // a fill byte
			at++
			continue
		case head[1] == 0, 0xD0 <= head[1] && head[1] <= 0xD7: // which the decoder passes over too
			at += 2
			continue
		case head[1] == scan:
			// Within the picture the two bytes never stand. Phones put more behind its end:
			// a little, or a film, of which any piece is as likely to hold them by chance.
			tail := max(at, size-maxEXIF)
			found.quarters = frameQuarters(frameHead, progressive, converted)
			found.whole = bytes.Contains(bytesAt(r, tail, size-tail), []byte(end)) || holds(io.NewSectionReader(r, at, tail-at+1), end)
			return found
		}
		length := int64(binary.BigEndian.Uint16(head[2:]))
		switch {
		case length <= 2:
		case head[1] == app1 && found.exif == nil:
			if body := bytesAt(r, at+4, length-2); bytes.HasPrefix(body, []byte(exifHead)) {
				found.exif = body[len(exifHead):]
			}
		case frame <= head[1] && head[1] <= passes:
			frameHead, progressive = bytesAt(r, at+4, length-2), head[1] == passes
		case head[1] == adobe:
			converted = true
		}
		at += 2 + max(length, 2)
	}
	found.whole = true
	return found
}

// holds tells whether two bytes stand in what is read.
func holds(r io.Reader, two string) bool {
	in := bufio.NewReaderSize(r, maxEXIF)
	for {
		if _, err := in.ReadSlice(two[0]); err == bufio.ErrBufferFull {
			continue
		} else if err != nil {
			return false
		}
		if next, err := in.Peek(1); err == nil && next[0] == two[1] {
			return true
		}
	}
}

// walkPNG finds the EXIF data in the chunk eXIf, which may stand before the picture or behind it.
func walkPNG(r io.ReaderAt, size int64) parts {
	const around = 4 + 4 + 4 // length, name, check sum
	found, transparent := parts{}, false
	at := int64(8)
	for range maxParts {
		head := bytesAt(r, at, 8)
		if head == nil {
			return found
		}
		length, name := int64(binary.BigEndian.Uint32(head)), string(head[4:])
		switch {
		case at+length+around > size:
			return found
		case name == "tRNS":
			transparent = true
		case name == "IEND":
			found.whole, found.quarters = true, headQuarters(bytesAt(r, 16, 13), transparent)
			return found
		case name == "eXIf" && length <= maxEXIF:
			found.exif = bytesAt(r, at+8, length)
		}
		at += length + around
	}
	found.whole, found.quarters = true, headQuarters(bytesAt(r, 16, 13), true)
	return found
}

// walkWebP finds the EXIF data in the chunk EXIF, which stands behind the picture.
func walkWebP(r io.ReaderAt, size int64) parts {
	var found parts
	head := bytesAt(r, 0, 12)
	if head == nil {
		return found
	}
	end := 8 + int64(binary.LittleEndian.Uint32(head[4:]))
	found.whole = end <= size
	at := int64(12)
	for range maxParts {
		head := bytesAt(r, at, 8)
		if head == nil || at+8 > end {
			break
		}
		length := int64(binary.LittleEndian.Uint32(head[4:]))
		switch string(head[:4]) {
		case "ANIM", "ANMF":
			found.moving = true
		case "VP8 ":
			found.lossy = true
		case "VP8L":
			found.lossless = true
		case "ALPH":
			found.clear = true
		case "EXIF":
			if length <= maxEXIF { // some programs write the head of a JPEG's here too
				found.exif = bytes.TrimPrefix(bytesAt(r, at+8, length), []byte(exifHead))
			}
		}
		at += 8 + length + length%2
	}
	return found
}

// orientationTag reads the tag 0x0112 of the first directory of a TIFF structure.
func orientationTag(tiff []byte) int {
	const (
		tag, short = 0x0112, 3
		entrySize  = 12
	)
	if len(tiff) < 8 {
		return 0
	}
	var order binary.ByteOrder = binary.LittleEndian
	switch string(tiff[:4]) {
	case "II*\x00":
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 0
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 0
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < entrySize {
			return 0
		}
		if order.Uint16(entries) == tag && order.Uint16(entries[2:]) == short {
			return int(order.Uint16(entries[8:]))
		}
		entries = entries[entrySize:]
	}
	return 0
}
