package command

import (
	"io"
	"time"

	"github.com/schollz/progressbar/v3"
)

// patience is how long a command may take before a bar is drawn: anything
// quicker would only flicker.
const patience = time.Second

// late is a bar that is drawn on a terminal only, and only once a command has taken
// longer than patience.
type late struct {
	bar          *progressbar.ProgressBar
	start, shown time.Time
}

func newLate(s Streams, total int64, how ...progressbar.Option) late {
	l := late{start: time.Now()}
	if s.Progress {
		how = append(how, progressbar.OptionSetWriter(s.Err), progressbar.OptionClearOnFinish())
		l.bar = progressbar.NewOptions64(total, how...)
	}
	return l
}

// due tells whether it is to be drawn now, which it is every so often.
func (l *late) due(every time.Duration) bool {
	now := time.Now()
	if l.bar == nil || now.Sub(l.start) <= patience || now.Sub(l.shown) < every {
		return false
	}
	l.shown = now
	return true
}

// Finish takes the bar away.
func (l *late) Finish() {
	if !l.shown.IsZero() {
		_ = l.bar.Finish()
	}
}

// Progress shows how far a command is.
type Progress struct {
	late
	done int
}

// NewProgress counts to total.
func NewProgress(s Streams, total int) *Progress {
	width, guess := progressbar.OptionSetWidth(30), progressbar.OptionSetPredictTime(false)
	return &Progress{late: newLate(s, int64(total), width, guess)}
}

// Next says what is being done now.
func (p *Progress) Next(what string) {
	if p.due(0) {
		p.bar.Describe(what)
		_ = p.bar.Set(p.done)
	}
	p.done++
}

// counter passes bytes on and shows how many, where the total is not known.
type counter struct {
	late
	w     io.Writer
	bytes int64
}

// redraw is how often a count of bytes is drawn anew; the eye reads no faster.
const redraw = 100 * time.Millisecond

// newCounter counts what is written to w under a name.
func newCounter(s Streams, name string, w io.Writer) *counter {
	bytes, named := progressbar.OptionShowBytes(true), progressbar.OptionSetDescription(name)
	return &counter{late: newLate(s, -1, bytes, named), w: w}
}

// Write passes p on.
func (c *counter) Write(p []byte) (int, error) {
	n, err := c.w.Write(p)
	c.bytes += int64(n)
	if c.due(redraw) {
		_ = c.bar.Set64(c.bytes)
	}
	return n, err
}
