package session

import (
	"fmt"

	"seamrail/export/drive"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/spec/rig"
)

// sync has the sync mark of the shot made before each take and after it.
func (s *session) sync(o *drive.Options) {
	o.Sync, o.Outputs = nil, nil
	m := s.job.Mark
	if m == nil {
		return
	}
	o.Sync = &drive.SyncMark{
		Name: m.Name(), Axis: m.Axis, Out: m.Distance, Length: m.Length.Float(),
		Back: m.Goes.Add(m.Length).Float(), Before: m.Before().Float(), After: m.After.Float(),
	}
	if m.By == syncmark.ByOutput {
		o.Sync.Output, o.Outputs = &m.Output, []rig.Output{m.Output}
	}
	o.Call = s.calls()
}

// calls tells a beat to whoever operates the run.
func (s *session) calls() func(drive.Beat) {
	if s.called != nil {
		return s.called
	}
	return func(b drive.Beat) { s.Call(b) }
}

// syncHead says before a run what marks frame 0.
func (s *session) syncHead() string {
	m := s.job.Mark
	if m == nil {
		return ""
	}
	text := fmt.Sprintf("Sync mark: %s.\n  %s; %s.\n", m.What(), m.Where(int64(s.job.Plan.Rounds)), m.Follows())
	for _, c := range m.Minds() {
		text += "  ! " + c + "\n"
	}
	return text
}
