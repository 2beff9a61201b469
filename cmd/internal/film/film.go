// Package film reads recordings, frame by frame, as how bright their pixels are: stills in a
// folder or named by a pattern, animated PNG, YUV4MPEG2 from a file or from standard input,
// and whatever else a decoder on the PATH can read. However long a recording is, it takes the
// memory of a few frames.
//
// What brightness is of red, green and blue, package luma says; what is odd of a recording
// and how large its frames may be, package odd; how a region is made smaller, package reduce.
// A film that asks to be turned as it is shown is turned; stills are taken as they lie in
// their files.
package film

import (
	"context"
	"errors"
	"fmt"
	"io"

	"seamrail/cmd/internal/film/decoder"
	"seamrail/cmd/internal/film/odd"
	"seamrail/cmd/internal/film/reduce"
	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
)

type (
	// Remark is one thing that is odd of a recording.
	Remark = odd.Remark
	// Cut is the error where a recording ends before it should, or its decoder does. The
	// frames before are whole.
	Cut = odd.Cut
	// NoDecoder is the error where a film file needs a decoder and none is installed.
	NoDecoder = decoder.Missing
	// Region is a part of a frame in recorded pixels.
	Region = reduce.Region
	// Grid is how the pixels of frames that come out lie in those that were recorded.
	Grid = reduce.Grid
)

// Stdin is the name of what is read from Options.Stdin.
const Stdin = "-"

// Range is which frames are wanted, counted from 0 as they were recorded. The zero value is
// all of them.
type Range struct {
	First   int
	Last    int  // inclusive
	Bounded bool // false where it goes on to the end, whatever Last is
}

func (r Range) check() error {
	if r.First < 0 || r.Bounded && r.Last < r.First {
		return fmt.Errorf("frames %d to %d are none; the first is at least 0, and the last not before it", r.First, r.Last)
	}
	return nil
}

// Options say what of a recording is wanted, and with what it is read. The zero value is all
// of it as it was recorded, without a decoder and without standard input.
type Options struct {
	Frames  Range
	Region  Region         // all of the frame without a size
	Scale   float64        // above 0 up to 1; 0 is 1; 0.5 is half as wide and high
	Widest  int            // where Scale is 0, as small as makes frames so wide; 0 leaves them as they are
	Rate    exact.Rat      // frames a second in place of what the recording says; 0 where that counts
	Decoder decoder.Lookup // finds ffmpeg and ffprobe, as exec.LookPath does
	Stdin   io.Reader      // what "-" is
	as      decoder.As
}

// source is a kind of recording.
type source interface {
	// Read hands out the rows of the next frame from above, all of their width. With none
	// to take them it passes over the frame. Its error is io.EOF after the last.
	Read(row func(y int, row []float32)) error
	Close() error
}

// Take is an open recording. It belongs to one goroutine.
type Take struct {
	ctx     context.Context
	about   footage.About
	in      source
	name    func(k int) string
	told    func() odd.Remarks
	own     odd.Remarks
	wanted  Range
	grid    Grid
	rows    *reduce.Rows
	colours coloured
	next    int // the number of the frame that comes next
	stopped error
}

// About is what the recording says of itself; its rate is that of the options where they
// have one. Frames are all that it says it has, whatever range is wanted.
func (t *Take) About() footage.About { return t.about }

// Grid is how the pixels that Next gives lie in the recorded frame.
func (t *Take) Grid() Grid { return t.grid }

// At is the number, in the recording, of the frame that Next gives next.
func (t *Take) At() int { return max(t.next, t.wanted.First) }

// Name is the file of frame k of a recording that is stills, without its folder; "" where it
// is none, or has no such frame.
func (t *Take) Name(k int) string { return t.name(k) }

// Remarks are what is odd of the recording, so far as it was read.
func (t *Take) Remarks() []Remark { return append(t.told(), t.own...) }

// Next reads the next frame that is wanted. The memory of into is used again where it
// suffices. The error is io.EOF after the last; a *Cut where the recording ends before it
// should, and the frames before can be used; ctx's where that has ended; any other where what
// comes is damaged or no frame of this recording. After an error it stays.
func (t *Take) Next(into *footage.Gray) error {
	if t.stopped == nil {
		t.stopped = t.read(into)
	}
	return t.stopped
}

func (t *Take) read(into *footage.Gray) error {
	if err := t.reach(); err != nil {
		return err
	}
	t.rows.Begin(into)
	return t.one(func() error { return t.in.Read(t.rows.Row) })
}

// reach passes over frames before the first that is wanted. Its error is io.EOF after the last.
func (t *Take) reach() error {
	for t.next < t.wanted.First {
		if err := t.one(func() error { return t.in.Read(nil) }); err != nil {
			return t.early(err)
		}
	}
	if t.wanted.Bounded && t.next > t.wanted.Last {
		return io.EOF
	}
	return nil
}

// one reads one frame or passes over it.
func (t *Take) one(read func() error) error {
	if err := t.ctx.Err(); err != nil {
		return err
	}
	err := read()
	if err == nil {
		t.next++
		return nil
	}
	var cut *Cut
	switch {
	case t.ctx.Err() != nil:
		return t.ctx.Err()
	case err == io.EOF:
		t.counted()
	case errors.As(err, &cut) && cut.Why != "":
		t.own.Add(odd.Died, "%v", cut)
	case cut != nil:
		t.own.Add(odd.Truncated, "%v", cut)
	}
	return err
}

// counted holds how many frames there were to what was announced.
func (t *Take) counted() {
	if t.wanted.Bounded && t.next <= t.wanted.Last {
		t.own.Add(odd.Fewer, "%s has %s; up to %d are wanted, counted from 0", t.about.Name, odd.Count(t.next), t.wanted.Last)
	}
	switch says := t.about.Frames; {
	case says == 0 || says == t.next:
	case t.next < says:
		t.own.Add(odd.Fewer, "%s says it has %s, and has %d", t.about.Name, odd.Count(says), t.next)
	default:
		t.own.Add(odd.More, "%s says it has %s, and has %d", t.about.Name, odd.Count(says), t.next)
	}
}

// early is the error where a recording ends before the first frame that is wanted.
func (t *Take) early(err error) error {
	if err != io.EOF {
		return err
	}
	return fmt.Errorf("%s has %s; the first that is wanted is %d, counted from 0", t.about.Name, odd.Count(t.next), t.wanted.First)
}

// Close ends the reading, and the decoder where there is one.
func (t *Take) Close() error {
	if t.stopped == nil {
		t.stopped = errClosed
	}
	return t.in.Close()
}

var errClosed = errors.New("the recording was closed")
