package host

import (
	"sync"
	"time"
)

// pipeRoom is how many bytes wait for a writer that is held up: what a common
// controller takes at once. Small, so that a byte that stops the rig has next
// to nothing to wait for.
const pipeRoom = 128

// pipe holds the few bytes between the engine and the writer.
type pipe struct {
	mu     sync.Mutex
	change *sync.Cond
	held   []byte
	out    int // bytes taken by the writer and not yet on the wire
	over   bool
}

func newPipe() *pipe {
	p := &pipe{}
	p.change = sync.NewCond(&p.mu)
	return p
}

// put takes as many bytes as there is room for.
func (p *pipe) put(b []byte) int {
	p.mu.Lock()
	defer p.mu.Unlock()
	n := min(len(b), pipeRoom-len(p.held)-p.out)
	if n <= 0 || p.over {
		return 0
	}
	p.held = append(p.held, b[:n]...)
	p.change.Broadcast()
	return n
}

// take waits for bytes and returns all there are; false when the pipe is over.
func (p *pipe) take() ([]byte, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for len(p.held) == 0 && !p.over {
		p.change.Wait()
	}
	if p.over {
		return nil, false
	}
	b := append([]byte(nil), p.held...)
	p.held, p.out = p.held[:0], len(b)
	return b, true
}

// free says that n bytes are on the wire.
func (p *pipe) free(n int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.out -= n
	p.change.Broadcast()
}

// drain waits until nothing is held, for a while.
func (p *pipe) drain(patience time.Duration) {
	late := time.AfterFunc(patience, p.close)
	defer late.Stop()
	p.mu.Lock()
	defer p.mu.Unlock()
	for (len(p.held) > 0 || p.out > 0) && !p.over {
		p.change.Wait()
	}
}

func (p *pipe) close() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.over = true
	p.change.Broadcast()
}
