// Package portsreport tells which serial ports there are and what is known of each.
package portsreport

import "seamrail/export/report"

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-ports/1"

// Data is what there is to tell.
type Data struct{ Ports []Port }

// Port is one serial port; "-" is what nobody knows.
type Port struct {
	Name   string `json:"name"`
	USB    string `json:"usb"` // the vendor's and the product's number, hexadecimal
	Serial string `json:"serial"`
	About  string `json:"about"`
}

// Document is the JSON report.
type Document struct {
	Schema string `json:"schema"`
	Ports  []Port `json:"ports"` // by name
}

const noPorts = `There is no serial port here. Is the rig plugged in and switched on? Some boards need a driver before the system shows them. "seamrail drive --virtual" runs a shot on a rig made of software.`

// Report tells it to people.
func (d Data) Report() report.Report {
	var r report.Report
	if len(d.Ports) == 0 {
		r.Title = noPorts
		return r
	}
	r.Title = "Serial ports"
	r.Named("ports", "")
	t := report.Table{Columns: []report.Column{{Head: "port"}, {Head: "USB"}, {Head: "serial number"}, {Head: "what it says it is"}}}
	for _, p := range d.Ports {
		t.Rows = append(t.Rows, report.Row{Cells: []string{p.Name, p.USB, p.Serial, p.About}})
	}
	r.Add(t)
	return r
}

// Facts tells it to programs: a Document.
func (d Data) Facts() any { return Document{Schema, report.List(d.Ports)} }
