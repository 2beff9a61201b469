package footage

import (
	"context"
	"fmt"
	"image"
	"io"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/rushes"
	"seamrail/export/report/footagereport"
	"seamrail/motion/base/plain"
	"seamrail/plot/preview"
)

// The size of pictures that are drawn, in px across: those of a strip stand beside each other.
const (
	stillWide = 240
	playWide  = 480
	// beside is how many stills of a strip stand on either side of the seam.
	beside = 4
)

// loop is one of the recording, from a frame that was looked at on.
type loop struct{ first, length int }

// best is the loop that is drawn: all of it where that is one, or the best that was found.
func best(d footagereport.Data) (loop, error) {
	if d.AsWhole != nil && d.AsWhole.Unseen() {
		return loop{0, len(d.Course.Frames)}, nil
	}
	if d.Loops == nil || len(d.Loops.Runs) == 0 {
		return loop{}, fmt.Errorf("there is no loop in %s to draw; --between says how long one may be", plain.Text(d.Course.About.Name))
	}
	r := d.Loops.Runs[0]
	return loop{r.First, r.Length}, nil
}

// at is the number of a frame in the recording.
func (l loop) at(d footagereport.Data, frame int) int { return d.First + l.first + frame }

// strip draws the frames around the seam: the last of the loop, and again its first.
func (o *Options) strip(asked film.Options, of seen) error {
	d := of.data
	l, err := best(d)
	if err != nil {
		return err
	}
	n := min(beside, l.length)
	frames, stills := make([]int64, 0, 2*n), make([]*image.RGBA, 0, 2*n)
	asked.Scale, asked.Widest = 0, stillWide
	for _, from := range []int{l.at(d, l.length-n), l.at(d, 0)} {
		if err := rushes.Pictures(context.Background(), of.name, asked, from, n, func(k int, p *image.RGBA) error {
			frames, stills = append(frames, int64(from+k)), append(stills, p)
			return nil
		}); err != nil {
			return err
		}
	}
	s := preview.SeamOf(frames, stills)
	words := preview.StripWords{Title: "The seam, as it was filmed: " + plain.Text(d.Course.About.Name), Lines: []string{
		fmt.Sprintf("From frame %d to frame %d the picture changes by %.1f of 255, beside the seam by up to %.1f.", frames[n-1], frames[n], s.Step(), s.Usual()),
	}}
	return command.DrawToo(o.Streams, o.Seam, o.Told.JSON, func(w io.Writer) error { return preview.WriteStrip(w, s, words) })
}

// play writes the loop as it was filmed, for ever.
func (o *Options) play(asked film.Options, of seen) error {
	d, rate := of.data, of.take.Course.About.Rate
	l, err := best(d)
	if err != nil {
		return err
	}
	if rate.Sign() <= 0 {
		return fmt.Errorf("%s does not say how many frames it has a second; say --rate", plain.Text(d.Course.About.Name))
	}
	asked.Scale, asked.Widest = 0, playWide
	ctx, end := context.WithCancel(context.Background())
	defer end()
	next, failed := make(chan *image.RGBA), make(chan error, 1)
	deadman.Go(func() {
		defer close(next)
		failed <- rushes.Pictures(ctx, of.name, asked, l.at(d, 0), l.length, func(_ int, p *image.RGBA) error {
			select {
			case next <- p:
				return nil
			case <-ctx.Done():
				return ctx.Err()
			}
		})
	})
	return command.DrawToo(o.Streams, o.Play, o.Told.JSON, func(w io.Writer) error {
		var last *image.RGBA
		_, err := preview.WriteFilmed(w, l.length, rate, func(int) *image.RGBA {
			if p, more := <-next; more {
				last = p
			}
			return last
		})
		end()
		return firstOf(<-failed, err)
	})
}

// firstOf is what went wrong first: what reads ends with an error where what writes has failed.
func firstOf(read, write error) error {
	if write != nil {
		return write
	}
	return read
}
