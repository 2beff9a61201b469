package cli

import (
	"time"

	"github.com/schollz/progressbar/v3"
)

// patience is how long a command may take before a bar is drawn: anything
// quicker would only flicker.
const patience = time.Second

// progress shows how far a command is, on a terminal only and only once it
// has taken longer than patience.
type progress struct {
	bar   *progressbar.ProgressBar
	start time.Time
	done  int
}

// newProgress counts to total.
func newProgress(s Streams, total int) *progress {
	p := &progress{start: time.Now()}
	if s.Progress {
		p.bar = progressbar.NewOptions(total,
			progressbar.OptionSetWriter(s.Err),
			progressbar.OptionSetWidth(30),
			progressbar.OptionClearOnFinish(),
			progressbar.OptionSetPredictTime(false))
	}
	return p
}

// next says what is being done now.
func (p *progress) next(what string) {
	if p.bar != nil && time.Since(p.start) > patience {
		p.bar.Describe(what)
		_ = p.bar.Set(p.done)
	}
	p.done++
}

// finish takes the bar away.
func (p *progress) finish() {
	if p.bar != nil && time.Since(p.start) > patience {
		_ = p.bar.Finish()
	}
}
