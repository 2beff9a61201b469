package syncmark

import "seamrail/motion/controller/program"

// Program is the mark as a program makes it: none where nothing of the rig does, or where
// the controller reads no lines.
func (m *Mark) Program() program.Mark {
	if m == nil || m.By == ByClick || m.By == ByHand || m.By == ByOutput && m.Output.On == "" {
		return program.Mark{}
	}
	out := program.Mark{
		Length: m.Length.Float(), Rest: m.Rest.Float(), Before: m.Before().Float(), After: m.After.Float(),
	}
	if m.By == ByTwitch {
		out.Axis, out.Out = m.Axis, m.Distance
	} else {
		out.On, out.Off = m.Output.On, m.Output.Off
	}
	return out
}

// NotTold says why a program does not hold the mark.
func (m *Mark) NotTold() string {
	if m.By == ByOutput {
		return "output " + m.Output.Name + " has no words"
	}
	return "nothing of the rig makes it"
}
