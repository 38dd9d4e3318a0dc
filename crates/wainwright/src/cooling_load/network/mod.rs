//! The box as a network of heat capacities and conductances, through time.
