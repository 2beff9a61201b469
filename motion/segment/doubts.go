package segment

import "seamrail/motion/fault"

func (m *machine) doubts(k Take, p Prediction, x *ideal) fault.List { return nil }
