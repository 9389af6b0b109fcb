package geometry

// Full prints a length so that rounding hides nothing: as Text does where that is all
// of it, else as Exact does.
func (l Length) Full(u Units) string {
	if u == FeetInches && l.Round(Sixteenth) == l || u == Millimeters && l%Millimeter == 0 {
		return l.Text(u)
	}
	return l.Exact(u)
}
