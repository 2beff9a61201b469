package footagereport

import (
	"fmt"
	"strings"

	"seamrail/motion/footage/brightness"
)

// lampWords are the lamps that would beat so, "" where none would.
func lampWords(lamps []brightness.Lamp) string {
	var fit []string
	for _, l := range lamps {
		if l.Fits {
			fit = append(fit, l.Ripple.Decimal(2))
		}
	}
	if len(fit) == 0 {
		return ""
	}
	return fmt.Sprintf("; as a lamp that ripples at %s Hz would", strings.Join(fit, " or "))
}
