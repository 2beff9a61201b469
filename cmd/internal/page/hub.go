package page

import "sync"

// hub wakes every stream when there is something new to tell. Streams look for
// themselves what it is, so that a slow one misses no more than it can hear.
type hub struct {
	mu    sync.Mutex
	wakes map[chan struct{}]bool
}

// join returns what wakes a stream, and what leaves again.
func (h *hub) join() (wake <-chan struct{}, leave func()) {
	c := make(chan struct{}, 1)
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.wakes == nil {
		h.wakes = map[chan struct{}]bool{}
	}
	h.wakes[c] = true
	return c, func() {
		h.mu.Lock()
		defer h.mu.Unlock()
		delete(h.wakes, c)
	}
}

// wake wakes all, and waits for none.
func (h *hub) wake() {
	h.mu.Lock()
	defer h.mu.Unlock()
	for c := range h.wakes {
		select {
		case c <- struct{}{}:
		default:
		}
	}
}
