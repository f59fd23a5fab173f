"""lever_cap"""
