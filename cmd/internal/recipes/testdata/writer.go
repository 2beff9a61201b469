// Package reaches writes how far each axis goes, a line an axis.
package reaches

import (
	"fmt"
	"io"

	"seamrail/motion/plan"
)

// Write writes the lines. The error is the writer's, wrapped.
func Write(w io.Writer, p *plan.Plan) error {
	for _, a := range p.Axes {
		if _, err := fmt.Fprintf(w, "%s %.3f\n", a.Rig.Name, a.Extremes.Max.Value-a.Extremes.Min.Value); err != nil {
			return fmt.Errorf("writing how far each axis goes: %w", err)
		}
	}
	return nil
}
