package cli

import (
	"seamrail/export/drive"
	"seamrail/motion/rig"
	"seamrail/motion/words"
)

// program returns what makes the lines of a take. A step player needs none.
func (s *session) program() (func() drive.Source, error) {
	if s.job.rig.Controller.Kind == rig.StepPlayer {
		return nil, nil
	}
	t := s.job.trajectory
	if err := words.Check(t); err != nil {
		return nil, err
	}
	chosen, err := s.job.blocks()
	if err != nil {
		return nil, err
	}
	return func() drive.Source { return lineSource{words.New(t, chosen.Take)} }, nil
}

// lineSource is a program as the engine reads it.
type lineSource struct{ *words.Program }

// Next returns the next line.
func (l lineSource) Next() (drive.Line, bool) {
	line, ok := l.Program.Next()
	return drive.Line{Text: line.Text, Round: line.Round, Start: line.Start, End: line.End, Moves: line.Moves, Aim: line.Aim}, ok
}
