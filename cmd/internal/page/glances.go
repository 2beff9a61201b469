package page

import (
	"context"
	"slices"
	"sync"
)

// glances are the quick plans of a shot. The picture of the same step of a drag waits for
// the one that is under way: each is there sooner than if they shared the processors, and
// the picture is drawn from what was planned.
type glances struct {
	mu    sync.Mutex
	under chan struct{} // closed once the last that began has been planned; nil before any
	made  question      // it
	text  string        // what it led to; "" where that cannot be planned
}

// enter begins one, and returns what ends it with the text that it led to, if that can be
// planned.
func (g *glances) enter(q question) func(text string) {
	done := make(chan struct{})
	g.mu.Lock()
	g.under = done
	g.mu.Unlock()
	return func(text string) {
		g.mu.Lock()
		g.made, g.text = q, text
		g.mu.Unlock()
		close(done)
	}
}

// pass waits until the one that is under way is planned, or ctx ends.
func (g *glances) pass(ctx context.Context) {
	g.mu.Lock()
	under := g.under
	g.mu.Unlock()
	if under == nil {
		return
	}
	select {
	case <-under:
	case <-ctx.Done():
	}
}

// led is what a text with the same changes led to, if that was planned last.
func (g *glances) led(text string, edits []Edit) (string, bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.text, g.text != "" && g.made.Text == text && slices.EqualFunc(g.made.Edits, edits, Edit.same)
}
