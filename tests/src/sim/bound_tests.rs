use super::quick::Quick;
