package picture

const (
	// MaxMemory is what all pictures decoded at one time may take, and so the most that one may.
	MaxMemory = 768 << 20
	// Widest is the widest that a page uses; what is wider is made smaller.
	Widest = 1600
)

// memory is how many bytes it takes to decode a picture and to make what pages show of it.
func (h *Header) memory(quarters int) int64 {
	w, height := int64(h.Width), int64(h.Height)
	across, down := w, height
	if h.Turn > 4 {
		across, down = height, w
	}
	shown := min(across, Widest)
	const rows, copies = 4, 4 * 4 // four copies of four bytes: made, turned, encoded, the next smaller one
	return w*(height+rows)*int64(quarters)/4 + shown*(down*shown/across+1)*copies
}

// What a pixel takes while it is decoded, in quarters of a byte, read off the
// decoders: image/jpeg, image/png and image/gif of Go 1.26, golang.org/x/image v0.47.
// A test decodes pictures of each sort and holds the numbers to what that takes.
const (
	quartersGIF      = 2 * 4  // an index, and another while interlaced rows are sorted
	quartersWebP     = 2 * 4  // a layer of brightness and two of a quarter, in whole blocks
	quartersLossless = 8 * 4  // red, green, blue and alpha, before and after they are transformed
	quartersClear    = 11 * 4 // a lossless picture for the alpha alone, and the one with loss
	quartersHEIC     = 16 * 4 // an estimate: its decoder runs in a machine of its own
	// quartersWorst is a progressive JPEG of four full layers, the dearest of all.
	quartersWorst = (4 + 4*4 + 4) * 4
)

// quartersOf is what a pixel takes in a file of that format.
func quartersOf(format string, found parts) int {
	switch {
	case found.quarters > 0:
		return found.quarters
	case format == "gif":
		return quartersGIF
	case format == "heic":
		return quartersHEIC
	case format == "webp" && found.clear:
		return quartersClear
	case format == "webp" && found.lossless:
		return quartersLossless
	case format == "webp":
		return quartersWebP
	}
	return quartersWorst
}

// frameQuarters reads the head of a JPEG's frame (ITU-T T.81 §B.2.2): layers and pixels. It returns 0 for a short one.
func frameQuarters(frame []byte, progressive, converted bool) int {
	const fixed, each = 6, 3
	if len(frame) < fixed || len(frame) < fixed+each*int(frame[5]) {
		return 0
	}
	layers := frame[fixed:][:each*int(frame[5])]
	most := 1
	for i := 1; i < len(layers); i += each {
		most = max(most, int(layers[i]>>4)*int(layers[i]&15))
	}
	sum, ids := 0, ""
	for i := 0; i < len(layers); i += each {
		share := int(layers[i+1]>>4) * int(layers[i+1]&15)
		sum += (4*share + most - 1) / most
		ids += string(rune(layers[i]))
	}
	if progressive {
		sum *= 1 + 4
	}
	if converted || len(ids) == 4 || ids == "RGB" {
		sum += 4 * 4
	}
	return sum
}

// headQuarters reads the head of a PNG (W3C PNG §11.2.2): bits, samples, interlacing. It returns 0 for a short one.
func headQuarters(head []byte, transparent bool) int {
	const grey, palette = 0, 3
	if len(head) < 13 {
		return 0
	}
	bytes := 4
	switch kind := head[9]; {
	case kind == palette, kind == grey && !transparent:
		bytes = 1
	}
	if head[8] == 16 {
		bytes *= 2
	}
	if head[12] != 0 {
		bytes *= 2
	}
	return bytes * 4
}
