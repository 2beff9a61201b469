package planreport

import "seamrail/export/report"

// LeftOut is something that the shot file says and the plan goes without.
type LeftOut struct {
	Key string `json:"key"`
	Why string `json:"why"`
}

// leftOut tells what of the shot file the plan goes without.
func (p *page) leftOut() {
	p.Section("LEFT OUT OF THE SHOT")
	for _, l := range p.pl.LeftOut {
		p.Bullets(report.Plain, "-", l.Key+": "+l.Why)
	}
}
