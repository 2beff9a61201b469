package decoder

import (
	"strconv"
	"strings"

	"seamrail/cmd/internal/film/y4m"
)

// lumaKept are beginnings of the names that ffmpeg has for pixels in which luma is a sample of
// its own.
func lumaKept() []string {
	return []string{"yuv", "yuyv", "uyvy", "uyyvyy", "yvyu", "nv", "p0", "p2", "p4", "y2", "xv", "vuy", "ayuv", "gray", "ya"}
}

func (s stream) hasLuma() bool {
	for _, begin := range lumaKept() {
		if strings.HasPrefix(s.Pixels, begin) {
			return true
		}
	}
	return false
}

// filter is what has ffmpeg give luma alone: the samples as they are, or where there are
// none, those that it makes of red, green and blue with the weights of Rec. ITU-R BT.709, in
// 16 bits, so that nothing is lost.
func (s stream) filter() string {
	if s.colour {
		return "scale=" + s.matrix() + "out_color_matrix=bt709:out_range=full,format=yuv444p"
	}
	if s.hasLuma() {
		return "extractplanes=y"
	}
	return "scale=out_color_matrix=bt709:out_range=full,format=gray16le"
}

// matrix names that of a film that does not say: by its height, as y4m has it.
func (s stream) matrix() string {
	said := s.Matrix != "" && s.Matrix != "unknown" && s.Matrix != "unspecified"
	switch {
	case said || !s.hasLuma():
		return ""
	case y4m.Header{Height: s.Height}.Matrix() == y4m.BT709:
		return "in_color_matrix=bt709:"
	}
	return "in_color_matrix=bt601:"
}

// white is the sample of what ffmpeg gives that is white, 0 where that is all ones. Where it
// makes luma, it shifts what has fewer than 16 bits up to them: 255 becomes 65280, as measured
// with version 5.1.
func (s stream) white() int {
	if s.hasLuma() || s.colour {
		return 0
	}
	bits := s.bits()
	return (1<<bits - 1) << (maxBits - bits)
}

// full tells whether black is 0 and white all ones. What does not say is so where it is red,
// green and blue, or grey, as ffmpeg has it; in other film it is not (ITU-T H.264, E.2.1:
// video_full_range_flag is 0 where it is not there; from memory, as the text was not at hand).
func (s stream) full() bool {
	switch {
	case s.colour, !s.hasLuma(), s.Range == "pc", strings.HasPrefix(s.Pixels, "yuvj"):
		return true
	case s.Range == "tv":
		return false
	}
	return strings.HasPrefix(s.Pixels, "gray") || strings.HasPrefix(s.Pixels, "ya")
}

// maxBits is the greatest number of bits a channel that is read.
const maxBits = 16

// bits is how many a channel has: as the file says, or as the name of its pixels ends
// ("yuv420p10le", "rgb48be" of three channels).
func (s stream) bits() int {
	if n := number(s.Bits); n > 0 && n <= maxBits {
		return n
	}
	name := strings.TrimSuffix(strings.TrimSuffix(s.Pixels, "le"), "be")
	stem := strings.TrimRight(name, "0123456789")
	n, err := strconv.Atoi(name[len(stem):])
	switch {
	case strings.HasSuffix(stem, "rgb") || strings.HasSuffix(stem, "bgr") || strings.HasSuffix(stem, "rgba") || strings.HasSuffix(stem, "bgra"):
		if n == 48 || n == 64 {
			return maxBits
		}
	case err == nil && n > 8 && n <= maxBits && !strings.HasPrefix(name, "nv"):
		return n
	}
	return 8
}
