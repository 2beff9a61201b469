package decoder

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"

	"seamrail/cmd/internal/film/odd"
	"seamrail/motion/base/exact"
)

// probed is what ffprobe says of a film's first picture stream, in its own words.
type probed struct {
	Streams []stream `json:"streams"`
	Format  struct {
		Tags  map[string]string `json:"tags"`
		Lasts string            `json:"duration"`
	} `json:"format"`
}

type stream struct {
	Width   int               `json:"width"`
	Height  int               `json:"height"`
	Pixels  string            `json:"pix_fmt"`
	Range   string            `json:"color_range"`
	Matrix  string            `json:"color_space"`
	Bits    string            `json:"bits_per_raw_sample"`
	Fields  string            `json:"field_order"`
	Finest  string            `json:"r_frame_rate"`
	Average string            `json:"avg_frame_rate"`
	Frames  string            `json:"nb_frames"`
	Lasts   string            `json:"duration"`
	Tags    map[string]string `json:"tags"`
	whole   string            // how long all of the file lasts
	colour  bool              // it is decoded with its colours
}

// asked are the entries that ffprobe is asked for.
const asked = "stream=width,height,pix_fmt,color_range,color_space,bits_per_raw_sample,field_order,r_frame_rate,avg_frame_rate,nb_frames,duration:stream_tags=timecode:format_tags=timecode:format=duration"

// maxSaid is how many bytes of what ffprobe says are read: many times what it is asked for.
const maxSaid = 1 << 16

// said keeps the beginning of what is written to it.
type said struct{ bytes []byte }

func (s *said) Write(p []byte) (int, error) {
	s.bytes = append(s.bytes, p[:min(len(p), maxSaid-len(s.bytes))]...)
	return len(p), nil
}

// probe asks what a file holds.
func probe(ctx context.Context, program, file string) (stream, error) {
	var out said
	var words tail
	cmd := exec.CommandContext(ctx, program, "-v", "error", "-protocol_whitelist", allowed, "-select_streams", "v:0", "-show_entries", asked, "-of", "json", "-i", named(file))
	cmd.Stdout, cmd.Stderr, cmd.WaitDelay = &out, &words, patience
	err := cmd.Run()
	if ctx.Err() != nil {
		return stream{}, ctx.Err()
	}
	if err != nil {
		return stream{}, fmt.Errorf("%s is no film that %s can read: %s", file, prober, words.or(err))
	}
	return parseProbed(file, out.bytes)
}

func parseProbed(file string, text []byte) (stream, error) {
	var p probed
	if err := json.Unmarshal(text, &p); err != nil {
		return stream{}, fmt.Errorf("%s says of %s what is not understood: %w", prober, file, err)
	}
	if len(p.Streams) == 0 {
		return stream{}, errors.New(file + " has no pictures")
	}
	s := p.Streams[0]
	s.whole = p.Format.Lasts
	if timecode(s.Tags) == "" {
		s.Tags = p.Format.Tags
	}
	return s, odd.CheckSize(file, s.Width, s.Height)
}

// timecode is that of the first frame, by whatever case the container writes its name in.
func timecode(tags map[string]string) string {
	for name, value := range tags {
		if strings.EqualFold(name, "timecode") {
			return printable(value)
		}
	}
	return ""
}

// number is a whole number above 0, or 0.
func number(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return max(n, 0)
}

// maxPart is the greatest number in a rate, as containers have it.
const maxPart = 1<<31 - 1

// rational is a rate in frames a second; 0 where it is none.
func rational(text string) exact.Rat {
	over, under, _ := strings.Cut(text, "/")
	n, d := number(over), number(under)
	if n == 0 || d == 0 || n > maxPart || d > maxPart {
		return exact.Rat{}
	}
	return exact.New(int64(n), int64(d))
}

// near is how far the mean rate may be from the finest, as a share of it, for the finest to
// be that of the recording: containers that round times to a millisecond stay far below it,
// and so does a camera that lost no more than one frame in four. Where more differs, frames
// have no rate of their own.
var near = exact.New(1, 4)

// rate is frames a second, and whether times follow each other otherwise in places. The
// finest is the least rate that has a place for each frame: it is exact, and for film of even
// frames it is the rate. Where frames are uneven it is far too great, and the mean is told.
func (s stream) rate() (rate exact.Rat, varies bool) {
	finest, mean := rational(s.Finest), rational(s.Average)
	switch {
	case finest.Sign() == 0 || mean.Sign() == 0:
		return finest.Add(mean), false
	case finest.Equal(mean):
		return finest, false
	case finest.Equal(mean.Add(mean)) && s.interlaced(): // it counts fields
		return mean, false
	case finest.Sub(mean).Abs().Less(finest.Mul(near)):
		return finest, true
	}
	return mean, true
}

// sound is how much longer a file may last than its pictures, in seconds: packets of sound
// are up to a tenth.
const sound = 0.1

// lasts is how long the pictures last by what the file says, and how much of that may be
// sound alone, in seconds; 0 where it does not say.
func (s stream) lasts() (seconds, spare float64) {
	if seconds, err := strconv.ParseFloat(s.Lasts, 64); err == nil && seconds > 0 && !math.IsInf(seconds, 0) {
		return seconds, 0
	}
	if seconds, err := strconv.ParseFloat(s.whole, 64); err == nil && seconds > 0 && !math.IsInf(seconds, 0) {
		return seconds, sound
	}
	return 0, 0
}

func (s stream) interlaced() bool {
	switch s.Fields {
	case "tt", "bb", "tb", "bt":
		return true
	}
	return false
}
