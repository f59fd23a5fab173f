"""frog"""
