// Package exchange writes what a job hands over in open forms that other programs
// read. Drawings go out as SVG and as DXF; both are written from a placed drawing
// and compute nothing.
package exchange
