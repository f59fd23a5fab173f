"""blade"""
