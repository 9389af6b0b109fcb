package takeoff

// Default gives a usual specification.
func Default() Spec { return Spec{} }
