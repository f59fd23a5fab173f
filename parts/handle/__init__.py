"""handle"""
