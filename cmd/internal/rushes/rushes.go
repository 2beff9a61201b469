// Package rushes looks through what was filmed, once and frame by frame: where the picture went,
// how bright it was, and which frames are like which. What it means beside a plan is said by the
// rooms of motion/footage; what is drawn and told of it, by those who call.
package rushes

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/film"
	"seamrail/motion/footage"
	"seamrail/motion/footage/align"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/repeats"
)

// Widest is how wide frames are looked at where nothing else is asked, in pixels: shifts are found
// to a fiftieth of such a pixel, which is a twentieth of one of a film of 1920, three times as
// fast as two processors read such a film at half its size.
const Widest = 640

// Options say what is looked at. Scale 0 is the one that makes frames as wide as Widest.
type Options struct {
	Film film.Options
	// Tell, if not nil, is called with each frame that was looked at; of is 0 where nobody knows.
	Tell func(done, of int)
	// Show, if not nil, is called with each frame that was looked at, before Tell, and keeps no part
	// of it.
	Show func(g footage.Gray)
}

// Take is a recording that was looked through.
type Take struct {
	Course   footage.Course
	Sketches *alike.Sketches
	Remarks  []film.Remark
	Cut      error           // why it ended before it should; nil where it did not
	First    int             // the number of its first frame that was looked at
	Step     float64         // recorded pixels to one that was looked at
	Stills   []string        // the file of each frame, where it is stills
	Repeats  *repeats.Repeat // nil where its first picture does not repeat itself
}

// Look looks through a recording. What ends early or is damaged in the middle is looked at as far
// as it goes. It fails where not one frame comes, or with the error of ctx.
func Look(ctx context.Context, what string, o Options) (*Take, error) {
	if o.Film.Scale == 0 {
		o.Film.Widest = Widest
	}
	reel, err := film.Open(ctx, what, o.Film)
	if err != nil {
		return nil, err
	}
	t := &Take{Course: footage.Course{About: reel.About()}, First: reel.At(), Step: reel.Grid().Step}
	err = t.through(ctx, reel, o)
	t.Remarks = reel.Remarks()
	if failed := reel.Close(); err == nil {
		err = failed
	}
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if len(t.Course.Frames) == 0 {
		if err == nil {
			err = errors.New("there is no frame in it")
		}
		if strings.HasPrefix(err.Error(), what) {
			return nil, err // which says of what it speaks
		}
		return nil, fmt.Errorf("%s: %w", what, err)
	}
	t.Cut = err
	return t, nil
}

// ahead is how many frames are read before they are looked at: reading one and looking at another
// goes on at once.
const ahead = 3

// through looks at all frames. Where the picture went is found beside what it is like.
func (t *Take) through(ctx context.Context, reel *film.Take, o Options) error {
	ctx, end := context.WithCancel(ctx)
	defer end()
	read := readAhead(ctx, reel)
	tracker, sketches := align.NewTracker(t.Step), &alike.Collector{}
	var err error
	for f := range read {
		if err = f.err; err == nil {
			err = sketches.Add(f.gray)
		}
		if err != nil {
			break
		}
		if f.n == 1 {
			if again, ok := repeats.Of(f.gray, t.Step); ok {
				t.Repeats = &again
			}
		}
		tracker.Add(f.gray)
		if name := f.name; name != "" {
			t.Stills = append(t.Stills, name)
		}
		if o.Show != nil {
			o.Show(f.gray)
		}
		if o.Tell != nil {
			o.Tell(f.n, f.of)
		}
	}
	end()
	for range read { // until the reader has ended
	}
	t.Course.Frames, t.Sketches = tracker.Frames(), sketches.Sketches()
	return err
}

// still is a frame that was read, or why there is none.
type still struct {
	gray  footage.Gray
	name  string
	n, of int
	err   error
}

func readAhead(ctx context.Context, reel *film.Take) <-chan still {
	out := make(chan still, ahead)
	deadman.Go(func() {
		defer close(out)
		first, of := reel.At(), reel.About().Frames
		for {
			at := reel.At()
			s := still{name: reel.Name(at), n: at - first + 1, of: max(of-first, 0)}
			if s.err = reel.Next(&s.gray); errors.Is(s.err, io.EOF) {
				return
			}
			select {
			case out <- s:
			case <-ctx.Done():
				return
			}
			if s.err != nil {
				return
			}
		}
	})
	return out
}
