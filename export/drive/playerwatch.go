package drive

import (
	"time"
)

// resend sends all frames without acknowledgement again, unless that has just
// been done: each frame after a lost one is refused too.
func (p *player) resend() {
	if p.now.Sub(p.resent) < resendAfter/4 {
		return
	}
	p.resent = p.now
	if p.out.waiting() {
		return
	}
	for _, f := range p.flight {
		p.out.send(f.bytes)
	}
}

// tick asks for the status and sends again what was lost.
func (p *player) tick() {
	if p.info == nil {
		return
	}
	if !p.now.Before(p.asked.Add(p.every())) {
		p.ask()
	}
	if len(p.flight) > 0 {
		switch first := p.flight[0]; {
		case p.now.Sub(first.at) > patience:
			p.fail(Silent, "no acknowledgement for %v", p.now.Sub(first.at).Round(time.Millisecond))
		case p.now.Sub(later(first.at, p.resent)) >= resendAfter:
			p.resend()
		}
	}
	p.overdue()
	if !p.silent.IsZero() && p.now.Sub(p.silent) > patience {
		p.fail(Silent, "it has not answered for %v", p.now.Sub(p.silent).Round(time.Millisecond))
	}
}

// every is how often the status is asked for: while rows wait for room, as
// often as an eighth of its store is played.
func (p *player) every() time.Duration {
	if p.rows == nil {
		return pollEvery
	}
	eighth := seconds(float64(p.info.Capacity) / 8 * p.tickSeconds())
	return min(pollEvery, max(eighth, 10*time.Millisecond))
}

func (p *player) due() time.Time {
	if p.info == nil {
		return p.now.Add(never)
	}
	due := p.asked.Add(p.every())
	if len(p.flight) > 0 {
		due = earlier(due, later(p.flight[0].at, p.resent).Add(resendAfter))
	}
	return due
}
