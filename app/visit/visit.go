// Package visit is what was seen on the site before a bid: answers to a list of what to look
// at, in words, and photographs with their place on the plan. What has a figure goes into
// the fields of the job itself; the list says which.
package visit

import (
	"haunchbook.example/app/date"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/mark"
)

// Visit is what was seen. The zero Visit is none.
type Visit struct {
	Date     date.Day `json:"date,omitzero"`
	Access   string   `json:"access,omitzero"`
	Lines    string   `json:"lines,omitzero"`
	Ground   string   `json:"ground,omitzero"`
	Old      string   `json:"old,omitzero"`
	Building string   `json:"building,omitzero"`
	OnSite   string   `json:"onsite,omitzero"`
	Photos   []Photo  `json:"photos,omitzero"`
}

// Photo is a photograph of the site.
type Photo struct {
	Name   string         `json:"name,omitzero"` // of what, from where
	Date   date.Day       `json:"date,omitzero"`
	Image  string         `json:"image"`           // a PNG or JPEG file in base64
	Placed bool           `json:"placed,omitzero"` // on the plan, at At
	At     geometry.Point `json:"at,omitzero"`
}

// Mark names a photograph by its place among all, from 0.
func Mark(n int) string { return mark.Mark{Kind: mark.Photo, N: n + 1}.String() }

// Topic is a part of what to look at.
type Topic struct {
	Field string   // of a Visit: what was seen, in words
	Items []string // to look at
	Job   []string // the fields of a job that the answers go into, by their paths
}

// Topics is what to look at before a bid, in the order of a walk (common practice, no
// source; the distances of pumps from power lines are those of the pumping association,
// from memory).
var Topics = []Topic{
	{"access", []string{"Way in for trucks, width and turning", "Ground that carries a loaded truck", "Place to stand, reach to the far side", "Place for wash-out", "Neighbors, hours, parking"},
		[]string{"pour.reach.method", "pour.reach.chute", "pour.trucks.travel"}},
	{"lines", []string{"Power lines, how far and which voltage: a pump stays 20 ft away, 50 ft above 350 kV", "Utility locate called, ticket", "Private lines: well, septic, sprinklers, yard lights"}, nil},
	{"ground", []string{"Slope over the slab, high and low corner", "Soil, topsoil to take off, fill", "Water standing or running, drains", "Frost depth that the building department asks"},
		[]string{"spec.base.above", "spec.base.gravel"}},
	{"old", []string{"Thickness at the edge", "Top over or under the new one", "Joint: to tie, to slide, to part", "Bars, cracks, its saw cuts, moisture"},
		[]string{"spec.place.dowels.oldslab"}},
	{"building", []string{"Walls 2x4 or 2x6, doors and rough openings", "Posts, drains, sleeves, stub-ups", "Use, finish, heated or not", "Permit and inspections, who calls them"},
		[]string{"pour.use", "pour.finish", "pour.weathering", "spec.base.building"}},
	{"onsite", []string{"Water, power, toilet", "Spoil: stays or goes", "Weather expected, season"}, nil},
}
