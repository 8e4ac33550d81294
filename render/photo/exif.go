package photo

import (
	"bytes"
	"encoding/binary"
)

// orientation finds how a picture is to be turned, as the camera noted it in EXIF:
// 1 to 8, and 1 where it says nothing that can be understood. Nothing else of what
// a camera writes is ever read.
func orientation(data []byte, format string) int {
	var tiff []byte
	switch format {
	case "jpeg":
		tiff = exifOfJPEG(data)
	case "png":
		tiff = exifOfPNG(data)
	}
	if o := orientationTag(tiff); o >= 1 && o <= 8 {
		return o
	}
	return 1
}

// exifOfJPEG returns the EXIF data of the segment APP1, which stands before the scan.
func exifOfJPEG(data []byte) []byte {
	const (
		app1, scan = 0xE1, 0xDA
		head       = "Exif\x00\x00"
	)
	for at := 2; at+4 <= len(data) && data[at] == 0xFF; {
		marker := data[at+1]
		if marker == 0xFF { // a fill byte
			at++
			continue
		}
		end := at + 2 + int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == scan || end < at+4 || end > len(data) {
			return nil
		}
		if body := data[at+4 : end]; marker == app1 && bytes.HasPrefix(body, []byte(head)) {
			return body[len(head):]
		}
		at = end
	}
	return nil
}

// exifOfPNG returns the content of the chunk eXIf.
func exifOfPNG(data []byte) []byte {
	for at := 8; at+12 <= len(data); {
		size := int64(binary.BigEndian.Uint32(data[at:]))
		end := int64(at) + 8 + size
		if end+4 > int64(len(data)) {
			return nil
		}
		if string(data[at+4:at+8]) == "eXIf" {
			return data[at+8 : end]
		}
		at = int(end) + 4
	}
	return nil
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
