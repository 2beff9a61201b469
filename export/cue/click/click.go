// Package click writes the click track of a take: a lower tone that warns, a higher one
// that says now, and a sharp one, higher still, at each sync mark, each beginning on the sample nearest to
// its exact time. The file is RIFF/WAVE, linear PCM, 16 bits, 48000 samples a
// second, two channels (Multimedia Programming Interface and Data
// Specifications 1.0, IBM and Microsoft 1991).
package click

import (
	"bufio"
	"fmt"
	"io"

	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
)

const (
	// Rate is samples a second, as in film and video: 2002 of them are a frame at
	// 24000/1001, with none left over.
	Rate     = 48000
	channels = 2
	frame    = channels * 2 // bytes of one sample of both channels
	// tail, in samples, follows the take: half a second, for the last tone.
	tail = Rate / 2
)

// Sample returns the sample at which something begins that is at second t.
func Sample(t exact.Rat) int64 { return t.Mul(exact.Int(Rate)).Round().Whole() }

// Write writes the click track of a take. Time 0 is the first beat of its
// count-in. With two hands, each is heard on one side: the one called left, or
// the first, on the left; else, and for the count-in, on both. The lines of
// about go into the file's comment. It returns an error, and writes nothing, if
// the take is longer than a file can say, and the writer's error otherwise.
func Write(w io.Writer, t cue.Take, about []string) error {
	samples := t.Lasts().Mul(exact.Int(Rate)).Ceil().Add(exact.Int(tail))
	p, stop := ofTake(t)
	defer stop()
	return p.write(w, samples, about)
}

// write writes so many samples as a file.
func (p *player) write(w io.Writer, samples exact.Rat, about []string) error {
	head, err := header(samples, comment(about))
	if err != nil {
		return err
	}
	out := bufio.NewWriterSize(w, 1<<16)
	_, _ = out.Write(head) // a bufio.Writer keeps its first error for Flush
	for left := samples.Whole(); left > 0; left -= block {
		if _, err := out.Write(p.render(min(left, block))); err != nil {
			break
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the click track: %w", err)
	}
	return nil
}
