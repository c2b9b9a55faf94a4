"""Shoulderline: from a maker's sizes and joint choices to exact sums and full-size paper."""
