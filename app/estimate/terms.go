package estimate

// Terms is what a bid says besides its price. What is empty is printed as a blank
// to fill in by hand.
type Terms struct {
	Included []string `json:"included,omitzero"` // beyond what the drawing holds
	Excluded []string `json:"excluded"`          // what the price does not hold
	Days     int      `json:"days,omitzero"`     // that the bid is good for, from its date; 0 for a blank
	Payment  string   `json:"payment,omitzero"`
	Start    string   `json:"start,omitzero"`  // of the work
	Finish   string   `json:"finish,omitzero"` // of the work
}
