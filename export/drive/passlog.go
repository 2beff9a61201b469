package drive

import (
	"seamrail/export/drive/takelog"
)

// begin writes the record that must be there before anything moves.
func (p *pass) begin() error {
	planned := 0.0
	if p.total > 0 {
		planned = p.planned(p.total)
	}
	return p.record(takelog.Record{
		Kind: takelog.Begun, Take: p.take, Shot: p.Shot, Plan: p.Plan, Rig: p.Trajectory.Rig().Name,
		Rounds: p.total, Planned: planned, Shift: p.Shifts,
	})
}

// end writes how the pass ended.
func (p *pass) end(end End, detail string) error {
	done := Pass{
		Take: p.take, Rounds: p.rounds, Began: p.began, Ended: p.now, Planned: p.planned(p.rounds),
		Executed: p.executed, Uncertainty: p.doubt, Worst: p.worst, Held: p.held, End: end, Detail: detail,
		Foretold: p.foretold(p.rounds), RoundForetold: p.foretold(2) - p.foretold(1), Laps: p.laps,
	}
	r := takelog.Record{
		Kind: takelog.Ended, Take: p.take, Rounds: p.rounds, Executed: p.executed, Uncertainty: p.doubt, Held: p.held,
		Outcome: end.String(), Detail: detail, Known: p.known,
	}
	if p.rounds > 0 {
		r.Planned, r.Foretold = done.Planned, done.Foretold
	}
	for i, worst := range p.worst {
		a := p.axes[i]
		r.Worst = append(r.Worst, takelog.Worst{Axis: a.Name, Value: worst, Unit: a.Unit()})
	}
	err := p.record(r)
	p.Observer.Passed(done)
	return err
}

// record adds a record to the log, if there is one.
func (e *engine) record(r takelog.Record) error {
	if e.Log == nil {
		return nil
	}
	r.Time, r.Virtual = e.now, e.Virtual
	if err := e.Log.Add(r); err != nil {
		return failed(LogFailed, "%v", err)
	}
	return nil
}
