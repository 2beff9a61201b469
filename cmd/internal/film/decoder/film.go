package decoder

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"seamrail/cmd/internal/film/odd"
	"seamrail/cmd/internal/film/y4m"
	"seamrail/motion/footage"
)

// Film is a film file that is being decoded.
type Film struct {
	About   footage.About
	remarks odd.Remarks
	ctx     context.Context
	file    string
	run     *process
	frames  *y4m.Reader
	count   int
	lasts   float64 // seconds; 0 where it does not say
	spare   float64 // seconds by which it may well last longer than its frames do
}

// As is how a film is decoded.
type As int

// Those there are: Grey is luma as it is, Coloured is with its colours, in 8 bits.
const (
	Grey As = iota
	Coloured
)

// Open starts to decode a file, which has to be there. The decoder ends with the file, with
// Close, or with ctx. Its error is a *Missing where none is installed.
func Open(ctx context.Context, file string, look Lookup, as As) (*Film, error) {
	play, ask, err := find(file, look)
	if err != nil {
		return nil, err
	}
	s, err := probe(ctx, ask, file)
	if err != nil {
		return nil, err
	}
	f := &Film{ctx: ctx, file: file}
	s.colour = as == Coloured
	if err = f.start(play, s, false); errors.Is(err, errOld) {
		err = f.start(play, s, true)
	}
	if err != nil {
		return nil, err
	}
	f.tell(s)
	return f, nil
}

// errOld is that of an ffmpeg which does not know fps_mode.
var errOld = errors.New("the decoder is an old one")

// start starts the decoder and reads what it says first.
func (f *Film) start(program string, s stream, old bool) (err error) {
	if f.run, err = start(f.ctx, program, arguments(f.file, s.filter(), old)); err != nil {
		return fmt.Errorf("cannot run %s: %w", program, err)
	}
	f.frames, err = y4m.NewReader(f.file, f.run.out, func(h *y4m.Header) {
		h.Full, h.Ranged, h.White = s.full(), true, s.white() // what it writes of grey need not be so
	})
	if err == nil {
		return nil
	}
	died := f.end(err)
	if !old && strings.Contains(string(f.run.words.bytes), "fps_mode") {
		return errOld
	}
	return died
}

// tell fills in what is known of the film.
func (f *Film) tell(s stream) {
	rate, varies := s.rate()
	h := f.frames.Header
	f.About = footage.About{Name: f.file, Width: h.Width, Height: h.Height, Bits: s.bits(),
		Rate: rate, Start: timecode(s.Tags), Frames: number(s.Frames)}
	f.lasts, f.spare = s.lasts()
	if varies {
		f.remarks.Add(odd.Variable, "%s has a rate that varies, or frames that were lost: the finest is %s and the mean %s frames a second; %s is taken", f.file, s.Finest, s.Average, rate)
	}
	if s.interlaced() {
		f.remarks.Add(odd.Interlaced, "%s is interlaced: each frame holds two moments, which are measured as one", f.file)
	}
	if rate.Sign() == 0 {
		f.remarks.Add(odd.Rate, "%s says no rate", f.file)
	}
}

// Remarks are what is odd so far.
func (f *Film) Remarks() odd.Remarks {
	out := append(odd.Remarks(nil), f.remarks...)
	for _, r := range f.frames.Remarks {
		if r.Kind == odd.Interlaced { // what else that stream lacks the file may have
			out.Add(r.Kind, "%s", r.Text)
		}
	}
	return out
}

// Read hands out the rows of the next frame, as y4m.Reader does. Its error is an *odd.Cut
// where the decoder gives up, and ctx's where that has ended.
func (f *Film) Read(row func(y int, row []float32)) error {
	err := f.frames.Read(row)
	if err != nil {
		return f.end(err)
	}
	f.count++
	return nil
}

// end is what an error of its stream comes from.
func (f *Film) end(err error) error {
	var cut *odd.Cut
	if over := err == io.EOF || errors.Is(err, io.ErrUnexpectedEOF); !over || errors.As(err, &cut) && cut.Why != "" {
		f.run.kill() // it says what is no such stream, and may go on for ever
		return cmp.Or(f.ctx.Err(), err)
	}
	gone := f.run.wait()
	words := f.run.words.last()
	switch {
	case f.ctx.Err() != nil:
		return f.ctx.Err()
	case gone != nil || err != io.EOF || f.count == 0:
		return &odd.Cut{Name: f.file, Frames: f.count, Why: died(gone, words)}
	case words != "":
		f.remarks.Add(odd.Died, "the decoder found %s damaged: %s", f.file, words)
	}
	f.lost()
	return err
}

// lost holds the frames that came to the time that they should last: a container that knows
// one rate alone does not tell frames that were left out.
func (f *Film) lost() {
	rate := f.About.Rate.Float()
	should := f.lasts * rate
	if slack := 1 + f.spare*rate; f.lasts > 0 && math.Abs(should-float64(f.count)) > slack {
		f.remarks.Add(odd.Variable, "%s lasts %.6g s, which is %.0f frames at %s a second, and has %d: frames were left out, or its rate varies", f.file, f.lasts, should, f.About.Rate, f.count)
	}
}

// died says how a decoder ended.
func died(gone error, words string) string {
	how := "the decoder ended"
	if gone != nil {
		how += " (" + gone.Error() + ")"
	}
	if words == "" {
		return how + " without a word"
	}
	return how + " and said: " + words
}

// ReadColour hands out the planes of the next frame, as y4m.Reader does; the film was opened
// Coloured, and Rec. ITU-R BT.709 is how red, green and blue come of them.
func (f *Film) ReadColour(row func(plane, y int, row []float32)) error {
	err := f.frames.ReadColour(row)
	if err != nil {
		return f.end(err)
	}
	f.count++
	return nil
}

// Close ends the decoder and waits until it is gone.
func (f *Film) Close() error {
	f.run.kill()
	return nil
}
