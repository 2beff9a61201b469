package command

import (
	"io"
	"time"

	"github.com/schollz/progressbar/v3"
)

// patience is how long a command may take before a bar is drawn: anything
// quicker would only flicker.
const patience = time.Second

// Progress shows how far a command is, on a terminal only and only once it
// has taken longer than patience.
type Progress struct {
	bar   *progressbar.ProgressBar
	start time.Time
	done  int
}

// NewProgress counts to total.
func NewProgress(s Streams, total int) *Progress {
	p := &Progress{start: time.Now()}
	if s.Progress {
		p.bar = progressbar.NewOptions(total,
			progressbar.OptionSetWriter(s.Err),
			progressbar.OptionSetWidth(30),
			progressbar.OptionClearOnFinish(),
			progressbar.OptionSetPredictTime(false))
	}
	return p
}

// Next says what is being done now.
func (p *Progress) Next(what string) {
	if p.bar != nil && time.Since(p.start) > patience {
		p.bar.Describe(what)
		_ = p.bar.Set(p.done)
	}
	p.done++
}

// Finish takes the bar away.
func (p *Progress) Finish() {
	if p.bar != nil && time.Since(p.start) > patience {
		_ = p.bar.Finish()
	}
}

// counter passes bytes on and shows how many, where the total is not known.
type counter struct {
	w     io.Writer
	bar   *progressbar.ProgressBar
	start time.Time
	bytes int64
	shown time.Time
}

// redraw is how often a count of bytes is drawn anew; the eye reads no faster.
const redraw = 100 * time.Millisecond

// newCounter counts what is written to w under a name.
func newCounter(s Streams, name string, w io.Writer) *counter {
	c := &counter{w: w, start: time.Now()}
	if s.Progress {
		c.bar = progressbar.NewOptions64(-1, progressbar.OptionSetWriter(s.Err),
			progressbar.OptionShowBytes(true), progressbar.OptionSetDescription(name),
			progressbar.OptionClearOnFinish())
	}
	return c
}

// Write passes p on.
func (c *counter) Write(p []byte) (int, error) {
	n, err := c.w.Write(p)
	c.bytes += int64(n)
	now := time.Now()
	if c.bar != nil && now.Sub(c.start) > patience && now.Sub(c.shown) > redraw {
		c.shown = now
		_ = c.bar.Set64(c.bytes)
	}
	return n, err
}

func (c *counter) finish() {
	if c.bar != nil && !c.shown.IsZero() {
		_ = c.bar.Finish()
	}
}
