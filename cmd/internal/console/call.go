package console

import (
	"seamrail/export/drive"
	"seamrail/motion/base/plain"
)

// Call counts a hand to its moment, with a bell on a terminal. A plain page is
// told the moment alone.
func (p *Panel) Call(b drive.Beat) {
	p.mu.Lock()
	defer p.mu.Unlock()
	ring := ""
	if p.Live {
		ring = bell
	}
	switch {
	case b.Left == 0:
		p.line("%sNOW: %s", ring, plain.Text(b.Text))
	case p.Live:
		p.line("%s%d: %s", ring, b.Left, plain.Text(b.Text))
	}
}
