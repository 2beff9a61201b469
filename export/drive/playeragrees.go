package drive

import (
	"time"

	"seamrail/export/drive/stepplayer"
)

// A step player tells how many rows it has played and where its motors stand then.
// Both are held against the rows that it was sent, in passes and gentle moves alike.

const (
	// rowsAside is how many rows the steps of a status may be before or after those it
	// counts: the row in hand may count when it begins or when it ends.
	rowsAside = 1
	// stepsAside is how many steps they may be besides.
	stepsAside = 1
)

// credible refuses a status that no player can mean.
func (p *player) credible(s stepplayer.Status) bool {
	switch {
	case s.Room > p.info.Capacity:
		p.fail(Garbled, "it says it has room for %d rows, and stores %d", s.Room, p.info.Capacity)
	case len(s.Steps) < min(p.axesNow, p.info.Axes):
		p.fail(Garbled, "it tells the steps of %d motors, and has %d", len(s.Steps), p.axesNow)
	default:
		return true
	}
	return false
}

// agrees holds a status against what the player was told to do.
func (p *player) agrees(s stepplayer.Status) {
	if p.rows == nil || !p.moving || p.calming || p.begun.IsZero() || p.before.Before(p.begun) {
		return
	}
	if why := p.unmeant(s); why != "" {
		p.fail(NotPlan, "it says that it is %v, %s", s.State, why)
		return
	}
	if s.State == stepplayer.Playing || s.State == stepplayer.Slowing || s.State == stepplayer.Ended {
		p.inRows(s)
	}
	if s.State == stepplayer.Playing && p.engine.held == nil { // by hand nothing has a time
		p.inTime(s)
	}
}

// unmeant says why it cannot be in a state, or "". Starved, aborted and in an alarm
// are faults of their own.
func (p *player) unmeant(s stepplayer.Status) string {
	switch s.State {
	case stepplayer.StandingBy:
		if p.going && (!p.began.IsZero() || p.now.Sub(p.went) > patience) {
			return "and was told to go"
		}
	case stepplayer.Playing:
		if !p.going {
			return "and was not told to go"
		}
	case stepplayer.Slowing, stepplayer.Held:
		if !p.held && p.now.Sub(p.resumed) > overdue {
			return "and was not told to hold"
		}
	case stepplayer.Ended:
		if !p.ended || int64(s.Played) != p.rows.count {
			return "and has not played all of its rows"
		}
	}
	return ""
}

// inRows holds the rows played and the steps against the rows that were sent.
func (p *player) inRows(s stepplayer.Status) {
	played := int64(s.Played)
	if played > p.rows.next {
		p.fail(NotPlan, "it says that it has played %d rows, and was sent %d", played, p.rows.next)
		return
	}
	low, high := p.rows.between(played-rowsAside, played+rowsAside)
	for i, m := range p.motors {
		at := int64(s.Steps[m])
		if at >= low[m]-stepsAside && at <= high[m]+stepsAside {
			continue
		}
		if p.strays += strayWeight; p.strays >= maxStrays {
			p.fail(NotPlan, "axis %s is reported at step %d after %d rows, and they go from %d to %d",
				p.axes[i].Name, at, played, low[m], high[m])
		}
		return
	}
	p.strays = max(p.strays-1, 0)
}

// inTime holds the rows played against the time since they began.
func (p *player) inTime(s stepplayer.Status) {
	gone := p.now.Sub(p.began).Seconds()
	if q := p.engine.pass; q != nil {
		if !q.pausedAt.IsZero() {
			return
		}
		gone -= q.shift.Seconds()
	}
	played := float64(s.Played) * p.tickSeconds()
	may := max(maxLate, worstPace*gone) + p.tickSeconds()
	if !p.resumed.IsZero() { // it has slowed down and sped up
		may += 2 * stepplayer.HoldRows * p.tickSeconds()
	}
	late := gone - p.now.Sub(p.before).Seconds() - played
	switch {
	case late > may:
		p.fail(NotPlan, "it has played %d rows of %g ms within %.3f s: motion is %.0f ms behind the plan", s.Played, p.tickSeconds()*1000, gone, late*1000)
	case played-gone > may:
		p.fail(NotPlan, "it has played %d rows of %g ms within %.3f s: motion is %.0f ms ahead of the plan", s.Played, p.tickSeconds()*1000, gone, (played-gone)*1000)
	case p.engine.pass != nil:
		p.engine.pass.late = max(late, 0)
	}
}

// overdue notices an end that does not come: all rows have been sent, and should have
// been played.
func (p *player) overdue() {
	q := p.engine.pass
	if p.rows == nil || !p.ended || !p.moving || p.calming || p.began.IsZero() || !p.over.IsZero() || p.held {
		return
	}
	end := p.began.Add(seconds(float64(p.rows.count) * p.tickSeconds() * (1 + worstPace)))
	if q != nil {
		end = end.Add(q.shift)
	}
	if late := p.now.Sub(end); late > patience {
		p.fail(NotPlan, "it says that it is %v, and its last row should have been played %v ago", p.status.State, late.Round(time.Millisecond))
	}
}
