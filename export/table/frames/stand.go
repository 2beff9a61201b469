package frames

import (
	"fmt"

	"seamrail/export/header"
)

// standLine explains the column of a display stand: where it will be, which
// nothing commands.
func (tab table) standLine(i int) string {
	s := tab.t.Stand(i)
	from := "the face that is in front at frame 0, whichever it is"
	if s.Phased {
		from = "where it is started"
	}
	return fmt.Sprintf("stand %s: not commanded; its angle, degrees anticlockwise seen from above, from %s, at %s deg/s as measured",
		header.Clean(s.Name), from, s.Rate.Decimal(decimals))
}
